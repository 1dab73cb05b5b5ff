#include "weatherstruck/base/fault.h"

#include <stdexcept>
#include <utility>

namespace weatherstruck::base {

namespace {

std::string one_line(std::string text) {
  for (char& c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (byte < 0x20 || byte == 0x7f) c = ' ';
  }
  return text;
}

std::string all_faults(const std::string& source, const Faults& faults) {
  std::string text =
      source + (faults.size() == 1 ? ": 1 fault" : ": " + std::to_string(faults.size()) + " faults");
  for (const Fault& fault : faults)
    text += "\n  " + to_text(fault);
  return text;
}

}  // namespace

std::string to_text(const Fault& fault) {
  std::string text;
  if (!fault.found.empty()) text += "found " + fault.found;
  if (!fault.expected.empty()) text += (text.empty() ? "allowed: " : "; allowed: ") + fault.expected;
  if (!text.empty() && !fault.remedy.empty()) text += ". ";
  text += fault.remedy;
  if (!fault.place.empty()) text.insert(0, fault.place + (text.empty() ? "" : ": "));
  return one_line(std::move(text));
}

InputError::InputError(std::string source, Faults faults)
    : source_(std::move(source)), faults_(std::move(faults)), text_(all_faults(source_, faults_)) {
  if (faults_.empty()) throw std::invalid_argument("an InputError needs at least one fault");
}

}  // namespace weatherstruck::base
