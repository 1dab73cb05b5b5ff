#include "desk/job_talk_support.h"

#include <sstream>

#include "weatherstruck/base/text.h"

namespace weatherstruck::desk {

const files::SystemZones& zones() {
  static const files::SystemZones system;
  return system;
}

const files::MeDocument& me() {
  static const files::MeDocument document = [] {
    std::istringstream in(joined_lines(lines_of_answers("fixtures/demo/me-answers.txt")));
    std::ostringstream out;
    Talk talk(in, out, true);
    return *ask_me(talk, {}, zones()).document;
  }();
  return document;
}

base::Instant saturday_evening() {
  return *base::parse_iso_instant("2026-02-07T18:00:00Z");
}

AskedJob ask_for(const std::string& input, const std::vector<std::string>& taken,
                 const files::MeDocument& who) {
  std::istringstream in(input);
  std::ostringstream out;
  Talk talk(in, out, true);
  AskedJob result;
  result.talk = ask_job(talk, who, saturday_evening(), taken, zones());
  result.said = out.str();
  return result;
}

const std::vector<std::string>& job_answers() {
  static const std::vector<std::string> lines = lines_of_answers("fixtures/demo/ask-answers.txt");
  return lines;
}

std::string least_job(const std::string& parts) {
  return "Garden path\n\n\n51.9 -3.4\n2 h\nMon 5:00\nThu 21:00\n" + parts + std::string(20, '\n');
}

}  // namespace weatherstruck::desk
