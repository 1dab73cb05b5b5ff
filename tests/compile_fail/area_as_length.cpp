// An area is not a length.
#include "weatherstruck/base/quantity.h"

using namespace weatherstruck::base;

constexpr SquareMetres area = Metres(2) * Metres(3);
#ifdef FORBIDDEN
constexpr Metres nonsense = Metres(2) * Metres(3);
#endif
