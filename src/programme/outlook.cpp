#include "weatherstruck/programme/outlook.h"

#include <cmath>

namespace weatherstruck::programme {

double Outlook::chance() const {
  return weathers == 0 ? 0 : (home_and_sound + 1.0) / (weathers + 2.0);
}

double Outlook::sampling_error() const {
  const double n = weathers + 4.0;
  const double p = (home_and_sound + 2.0) / n;
  return std::sqrt(p * (1 - p) / n);
}

}  // namespace weatherstruck::programme
