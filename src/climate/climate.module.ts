import { Module } from '@nestjs/common';
import { ClimateService } from './climate.service.js';
import { WeatherService } from './weather/weather.service.js';

@Module({ providers: [ClimateService, WeatherService], exports: [ClimateService, WeatherService] })
export class ClimateModule {}
