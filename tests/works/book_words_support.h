#pragma once
// Words dictated on the invented job, read back for a test.
#include <string>
#include <vector>

#include "weatherstruck/works/book_words.h"
#include "works/book_support.h"

namespace weatherstruck::works {

inline const Job& job() {
  static const Job made = demo_job();
  return made;
}
inline const TaskList& tasks() {
  static const TaskList made = derive_tasks(job());
  return made;
}
/// Tuesday 10 February 2026, ten past four in the afternoon.
inline Surroundings at_ten_past_four() {
  return {feb(10, 16, 10), sterling(), {}};
}
inline std::vector<Heard> hear(const std::string& text, const Surroundings& around) {
  return BookWords(job(), tasks()).read(text, around);
}
inline std::vector<Heard> hear(const std::string& text) {
  return hear(text, at_ten_past_four());
}
inline std::string describe(const Reading& reading) {
  if (const auto* good = std::get_if<Understood>(&reading)) return "understood: " + good->sentence;
  if (const auto* asked = std::get_if<Question>(&reading)) {
    std::string text = "asked: " + asked->text;
    for (const std::string& one : asked->candidates)
      text += " [" + one + "]";
    return text;
  }
  return "not understood: " + std::get<NotUnderstood>(reading).text;
}

}  // namespace weatherstruck::works
