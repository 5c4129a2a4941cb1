import { brightSky } from "./bright-sky.ts";
import { metNorway } from "./met-norway.ts";
import { type Network, theNetwork } from "./network.ts";
import { nws } from "./nws.ts";
import { openMeteo } from "./open-meteo.ts";
import { type WeatherService, weatherService } from "./service.ts";

/** Where the services are and how we introduce ourselves; read from the environment in server/settings.ts. */
export interface ForecastSettings {
  readonly openMeteoUrl: string;
  readonly openMeteoEnsembleUrl: string;
  readonly openMeteoArchiveUrl: string;
  readonly openMeteoKey: string | null;
  readonly ensembleModels: readonly string[];
  readonly metNorwayUrl: string;
  readonly nwsUrl: string;
  readonly brightSkyUrl: string;
  readonly userAgent: string;
}

/** All services behind their chain. */
export function weatherServices(
  settings: ForecastSettings,
  network: Network = theNetwork(settings.userAgent),
): WeatherService {
  const everywhere = openMeteo(network, {
    forecastUrl: settings.openMeteoUrl,
    ensembleUrl: settings.openMeteoEnsembleUrl,
    archiveUrl: settings.openMeteoArchiveUrl,
    key: settings.openMeteoKey,
    ensembleModels: settings.ensembleModels,
  });
  const providers = [
    everywhere,
    metNorway(network, settings.metNorwayUrl),
    nws(network, settings.nwsUrl),
    brightSky(network, settings.brightSkyUrl),
  ];
  return weatherService(network, providers, [everywhere]);
}

/** A service without any provider: every question is answered with the clear error. */
export function noWeatherServices(): WeatherService {
  return weatherService(theNetwork(""), [], []);
}
