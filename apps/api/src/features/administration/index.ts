import type { FastifyInstance } from 'fastify';
import { changeUsers } from './change-user.ts';
import { keepCompany } from './company.ts';
import { readEvents } from './events.ts';
import { inviteUsers } from './invite.ts';
import { readMail } from './mail.ts';
import { readUsers } from './read-users.ts';
import { revokeAccess } from './revoke.ts';

/** The company's options, who may sign in, and what was written down and sent. */
export async function administrationFeature(app: FastifyInstance): Promise<void> {
  keepCompany(app);
  readUsers(app);
  inviteUsers(app);
  changeUsers(app);
  revokeAccess(app);
  readMail(app);
  readEvents(app);
}
