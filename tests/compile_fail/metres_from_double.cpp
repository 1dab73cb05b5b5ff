// A bare number is no length.
#include "weatherstruck/base/quantity.h"

using namespace weatherstruck::base;

constexpr Metres height(0.75);
#ifdef FORBIDDEN
constexpr Metres nonsense = 0.75;
#endif
