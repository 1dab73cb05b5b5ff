#pragma once
// A fault found in what somebody wrote (job document, forecast file, command line). Faults are values:
// readers collect them all and hand them back together; nothing is saved when there is one.
#include <exception>
#include <string>
#include <utility>
#include <vector>

namespace weatherstruck::base {

/// One thing wrong with an input.
struct Fault {
  std::string code;      ///< stable, lower case with dashes, e.g. "unknown-key"
  std::string place;     ///< JSON pointer ("/parts/2/height"), or "line 12", or "--now"
  std::string found;     ///< what stands there, shortened to fit a line
  std::string expected;  ///< what is allowed
  std::string remedy;    ///< what to do, an imperative sentence
  friend bool operator==(const Fault&, const Fault&) = default;
};

using Faults = std::vector<Fault>;

/// "place: found X; allowed: Y. Remedy" on one line, as `job check` prints it. Parts left empty are left
/// out; line breaks and other control characters become spaces.
[[nodiscard]] std::string to_text(const Fault& fault);

/// Thrown by readers that cannot hand back a value; carries every fault, never an empty list.
class InputError : public std::exception {
 public:
  /// @param source what was being read, e.g. a file name; shown before the faults
  /// @throws std::invalid_argument when `faults` is empty
  InputError(std::string source, Faults faults);
  [[nodiscard]] const char* what() const noexcept override { return text_.c_str(); }
  [[nodiscard]] const Faults& faults() const { return faults_; }
  [[nodiscard]] const std::string& source() const { return source_; }

 private:
  std::string source_;
  Faults faults_;
  std::string text_;
};

}  // namespace weatherstruck::base
