/** A new opaque id: 96 random bits as 24 hexadecimal digits. Works on plain http too, where `randomUUID` does not. */
export function opaqueId(): string {
	const bytes = crypto.getRandomValues(new Uint8Array(12));
	return Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
}
