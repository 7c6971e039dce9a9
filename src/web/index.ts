export { configureWeb } from './shell/configure-web.js';
export { WebModule } from './web.module.js';
