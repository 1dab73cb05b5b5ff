// A currency is read from text, and reading may fail.
#include "weatherstruck/base/money.h"

using namespace weatherstruck::base;

inline bool known() {
  return Currency::from_code("GBP").has_value();
}
#ifdef FORBIDDEN
inline Currency nonsense() {
  return Currency("GBP");
}
#endif
