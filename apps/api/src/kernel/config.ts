import * as z from 'zod';

const flag = z.stringbool();
/** How many proxies stand in front: `true` is one. Whatever stands in the header before theirs, anybody can invent. */
const proxies = z.union([z.coerce.number().int().min(0).max(9), flag.transform(Number)]);

const environment = z.object({
  PORT: z.coerce.number().int().min(0).max(65535).default(4300),
  HOST: z.string().default('0.0.0.0'),
  DATABASE_URL: z.string().min(1),
  DATABASE_POOL: z.coerce.number().int().min(2).max(200).default(10),
  /** 32 bytes or more; encrypts authenticator secrets at rest */
  SECRET_KEY: z.string().min(32),
  PUBLIC_URL: z.url().optional(),
  WEB_DIST: z.string().optional(),
  /** folder of the rule sets to publish; those of the rules package when left out */
  RULE_SETS_DIR: z.string().optional(),
  SMTP_URL: z.string().optional(),
  MAIL_FROM: z.string().default('Countercheck <countercheck@localhost>'),
  COOKIE_SECURE: flag.default(false),
  TRUST_PROXY: proxies.default(0),
  LOG_LEVEL: z.enum(['fatal', 'error', 'warn', 'info', 'debug', 'trace', 'silent']).default('info'),
  /** requests a minute from one address */
  RATE_LIMIT: z.coerce.number().int().min(1).default(1200),
});

export type Config = z.infer<typeof environment> & { publicUrl: string };

/** Reads the settings from the environment; throws one line per setting that cannot be used. */
export function readConfig(env: NodeJS.ProcessEnv = process.env): Config {
  const result = environment.safeParse(env);
  if (!result.success) {
    const lines = result.error.issues.map((issue) => `${issue.path.join('.')}: ${issue.message}`);
    throw new Error(`Settings that cannot be used:\n${lines.join('\n')}`);
  }
  const config = result.data;
  return {
    ...config,
    publicUrl: (config.PUBLIC_URL ?? `http://localhost:${config.PORT}`).replace(/\/$/, ''),
  };
}
