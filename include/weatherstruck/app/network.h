#pragma once
// How a run reaches the forecast services: what main takes from the environment, and a test from a server of
// its own.
#include <chrono>
#include <functional>
#include <string>

#include "weatherstruck/feed/curl_client.h"

namespace weatherstruck::app {

struct Network {
  /// WEATHERSTRUCK_SERVICE: one address in place of the services' own, see feed::addresses_under. What is
  /// asked, how often, and the rules of TLS and redirects stay the same; plain http reaches this machine
  /// only.
  std::string address;
  feed::HttpLimits limits;
  std::string open_meteo_key;  ///< WEATHERSTRUCK_OPEN_METEO_KEY: the user's own
  std::string ca_file;         ///< see feed::HttpDoors; the program itself leaves it empty
  /// Since the run began; unset: by the machine's clock.
  std::function<std::chrono::seconds()> passed;
  /// Between tries; unset: really.
  std::function<void(std::chrono::milliseconds)> sleep;
};

}  // namespace weatherstruck::app
