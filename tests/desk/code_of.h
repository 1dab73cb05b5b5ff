#pragma once
// The code of the first fault that a deed is refused for.
#include <functional>
#include <string>

#include "weatherstruck/base/fault.h"

namespace weatherstruck::desk {

/// Empty where nothing is refused.
inline std::string code_of(const std::function<void()>& deed) {
  try {
    deed();
  } catch (const base::InputError& error) {
    return error.faults().front().code;
  }
  return "";
}

}  // namespace weatherstruck::desk
