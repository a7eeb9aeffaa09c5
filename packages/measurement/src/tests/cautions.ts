/** Cautions that several tests share. Usual safety practice of the trade; local rules come before them. */
export const localRulesFirst =
  'Local codes, the equipment maker’s instructions and licensed practice come before this procedure.';
export const ladder =
  'Set ladders on firm ground, keep three points of contact, and do not reach out sideways.';
export const liveEquipment =
  'The air handler runs: keep clear of the blower and of live terminals, and drill no hole near a coil, a wire or a gas line.';
export const offAtTheSwitch =
  'Switch the equipment off at its service switch and tell the people in the house before opening it.';
export const fanAndFlames =
  'Before a fan runs, switch every vented combustion appliance off and cover or clear fireplaces: a fan can pull flames and fumes into the house. Put everything back afterwards.';
export const stopAndVentilate =
  'Stop and ventilate when carbon monoxide rises in the room: get people out, open doors, shut the appliance off only if that is safe, and call the fuel supplier or the emergency number from outdoors. Local codes, the fuel supplier and licensed practice come first.';
export const hotFlue =
  'Flues and draft hoods burn skin: wear gloves, use a long probe, and seal the test hole afterwards.';
export const carryMonitor =
  'Carry a running carbon monoxide monitor on your body for the whole combustion test.';
