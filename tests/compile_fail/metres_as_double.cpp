// A length becomes a bare number only where that is written.
#include "weatherstruck/base/quantity.h"

using namespace weatherstruck::base;

constexpr double height = Metres(0.75).value();
#ifdef FORBIDDEN
constexpr double nonsense = Metres(0.75);
#endif
