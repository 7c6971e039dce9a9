import { Module } from '@nestjs/common';
import { ClimateService } from './climate.service.js';

@Module({ providers: [ClimateService], exports: [ClimateService] })
export class ClimateModule {}
