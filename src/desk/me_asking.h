#pragma once
// The run of questions about him; its stretches stand in files of their own. For me_ask only.
#include <optional>
#include <string>

#include "weatherstruck/desk/talk.h"
#include "weatherstruck/files/me_json.h"
#include "weatherstruck/files/zone_source.h"
#include "weatherstruck/works/answer_words.h"

namespace weatherstruck::desk {

class MeAsking {
 public:
  MeAsking(Talk& talk, const files::MeDocument& usual, bool kept, const files::ZoneSource& zones)
      : talk_(talk), zones_(zones), out_(usual), kept_(kept) {}
  [[nodiscard]] files::MeDocument run();

 private:
  void who();
  void limits(const base::Zone& zone_before);
  void pace();
  void mate();
  void usual_in_feet();
  void kit();
  void covers();
  void van();
  void hours();
  void mixes();
  void charges();
  void travel();
  void tax(bool us);

  std::string text(std::string key, std::string words, const std::string& usual, std::size_t longest,
                   std::string help);
  int percent(std::string key, std::string words, int usual, int most, std::string help);
  /// Says in his units and in the others what was understood, where that is not what stood in the brackets.
  void say_back(bool changed, const std::string& his, const std::string& other);

  Talk& talk_;
  const files::ZoneSource& zones_;
  files::MeDocument out_;
  bool kept_;
  works::Measure measure_ = works::Measure::metric;
};

}  // namespace weatherstruck::desk
