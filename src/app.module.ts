import { type DynamicModule, Module } from '@nestjs/common';
import type { Foundation } from './foundation.js';
import { servicesModule } from './services.module.js';
import { WebModule } from './web/index.js';

/** The whole program: the services and the web. */
@Module({ imports: [WebModule] })
export class AppModule {}

export function appModule(foundation: Foundation): DynamicModule {
  return { module: AppModule, imports: [servicesModule(foundation)] };
}
