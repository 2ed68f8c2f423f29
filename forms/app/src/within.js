// What an inspector reads whose access is for a part of the book. The daemon refuses the rest; pages
// leave out what it would refuse.
import { get } from './api.js';
import { store } from './store.js';

const scopeOf = (session) => session?.inspection?.scope ?? 'everything';

/** Whether a part of the book is read: 'waste', 'cylinders-and-tools', 'everything', or 'any' for
 *  what each access has. */
export const isWithin = (part, session = store.state.session) =>
  part === 'any' || ['everything', part].includes(scopeOf(session));

/** The things of a class of the register; null where they lie outside of what is read. */
export async function thingsOf(thingClass) {
  try {
    return (await get(`/register/${thingClass}`)).things;
  } catch (error) {
    if (error.status !== 403 || isWithin('everything')) throw error;
    return null;
  }
}
