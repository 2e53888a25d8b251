import type { Services } from './services.ts';

/** Under this name the installation keeps the digest of its secret. */
export const secretDigest = 'secret digest';

/** Lets the next server that starts bring another secret: what was signed with the old one is worth nothing then. */
export async function forgetSecret({ storage }: Services): Promise<void> {
	await storage.installation.forget(secretDigest);
}
