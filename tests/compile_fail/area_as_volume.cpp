// An area is not a volume.
#include "weatherstruck/base/quantity.h"

using namespace weatherstruck::base;

constexpr CubicMetres volume = Metres(2) * Metres(3) * Metres(1);
#ifdef FORBIDDEN
constexpr CubicMetres nonsense = Metres(2) * Metres(3);
#endif
