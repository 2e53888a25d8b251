/** Runs before any page of the program in the browser. */
import { config } from 'zod';

// It would try whether it may compile checks as code; the policy of our pages says that nothing may, and tells of each try.
config({ jitless: true });
