/** Bundled scripts of the technician's pages, without `.js`. */
export const PHONE_SCRIPTS = ['round', 'visit'] as const;

/** Where the worker lies: it may look after every page below its own folder. */
export const WORKER_ADDRESS = '/phone-worker.js';
