#include "strip_shelf.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "weatherstruck/base/digest.h"
#include "weatherstruck/files/strip_bytes.h"
#include "weatherstruck/programme/fitted_strips.h"

namespace weatherstruck::desk {
namespace {

std::string week_of(std::string_view program, int day) {
  return fmt::format("strip 1 {} {:03} ", program, day);
}

std::string key_of(std::string_view program, const matter::StripCase& strip) {
  const base::Sha256 hash = base::sha256(files::pack_strip({strip, {}}));
  return week_of(program, static_cast<int>(std::lround(strip.day_of_year))) +
         base::base64(std::string(hash.begin(), hash.end()));
}

}  // namespace

void know_kept_strips(record::Store& store, std::string_view program, const base::Zone& zone,
                      base::Instant leave) {
  std::vector<programme::FittedStrip> strips;
  for (const std::string& bytes :
       store.reckoned_under(week_of(program, programme::fitting_day(zone, leave)))) {
    if (auto strip = files::unpack_strip(bytes)) strips.push_back(*strip);
  }
  programme::know_fitted(strips);
}

void keep_fitted_strips(record::Store& store, std::string_view program, base::Instant now) {
  for (const programme::FittedStrip& fitted : programme::fitted_strips()) {
    const std::string key = key_of(program, fitted.strip);
    if (!store.reckoned(key)) store.keep_reckoned(key, files::pack_strip(fitted), now);
  }
}

}  // namespace weatherstruck::desk
