// What the workshop wants amounts shown in, by its register. Told by the first answer of the daemon.

export const shownIn = { units: 'metric', number_format: 'point' };

/** Takes what GET /people tells. */
export const showIn = (told) => Object.assign(shownIn, told);
