// Rain fallen is not a rate of rain.
#include "weatherstruck/base/quantity.h"

using namespace weatherstruck::base;

void limit(MillimetresPerHour);
inline void use() {
  limit(MillimetresPerHour(0.5));
}
#ifdef FORBIDDEN
inline void misuse() {
  limit(Millimetres(0.5));
}
#endif
