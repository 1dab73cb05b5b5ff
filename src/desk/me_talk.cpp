#include "weatherstruck/desk/me_talk.h"

#include <string>
#include <utility>

#include "me_ask.h"
#include "weatherstruck/works/answer_words.h"

namespace weatherstruck::desk {

using works::Answer;
using works::Refused;

namespace {

/// What stands in the brackets for somebody who was never asked.
files::MeDocument nobody_yet(const files::ZoneSource& zones) {
  const files::ZoneRead london = zones.find("Europe/London");
  works::Me me =
      works::usual_me(london.zone ? *london.zone : base::Zone::fixed("UTC", std::chrono::seconds(0)));
  // What most vans carry: common practice, no source.
  me.kit.hessian = base::SquareMetres(20);
  me.kit.sheet = base::SquareMetres(30);
  return {std::move(me), {}};
}

}  // namespace

Answer<base::Zone> zone_answer(std::string_view text, const files::ZoneSource& zones) {
  const Refused refused{
      "a town of a time zone, such as London, Dublin or New York, or a name such as Europe/London"};
  std::string town;
  bool opens = true;
  for (const char c : text) {
    if (c == ' ') {
      town += '_';
      opens = true;
      continue;
    }
    const bool small = c >= 'a' && c <= 'z';
    const bool large = c >= 'A' && c <= 'Z';
    if (small && opens) {
      town += static_cast<char>(c - 'a' + 'A');
    } else if (large && !opens) {
      town += static_cast<char>(c - 'A' + 'a');
    } else {
      town += c;
    }
    opens = c == '/' || c == '-';
  }
  if (text.size() > 40 || text.empty()) return refused;
  if (auto exact = zones.find(text); exact.zone) return *std::move(exact.zone);
  if (town.find('/') != std::string::npos) {
    if (auto read = zones.find(town); read.zone) return *std::move(read.zone);
    return refused;
  }
  for (const std::string_view part :
       {"Europe", "America", "Australia", "Pacific", "Africa", "Asia", "Atlantic", "Indian"}) {
    if (auto read = zones.find(std::string(part) + "/" + town); read.zone) return *std::move(read.zone);
  }
  return refused;
}

std::optional<KeptMe> kept_me(Shelf& shelf, const files::ZoneSource& zones) {
  const std::optional<record::Document> kept = shelf.store().person();
  if (!kept) return {};
  files::MeRead read = files::read_me(kept->text, zones);
  if (!read.document) throw base::InputError("who you are, as kept", std::move(read.faults));
  return KeptMe{*std::move(read.document), kept->version};
}

KeptMe needed_me(Shelf& shelf, const files::ZoneSource& zones) {
  if (auto kept = kept_me(shelf, zones)) return *std::move(kept);
  throw base::InputError(
      "who you are", {{"not-asked-yet", "", "you have not been asked yet", "who you are, asked once and kept",
                       "Answer \"weatherstruck me\" first; Enter takes what is usual."}});
}

MeTalk ask_me(Talk& talk, const std::optional<files::MeDocument>& kept, const files::ZoneSource& zones) {
  const files::MeDocument usual = kept ? *kept : nobody_yet(zones);
  MeTalk out;
  out.end = talk.run([&] { out.document = ask_about_him(talk, usual, kept.has_value(), zones); });
  if (out.end != TalkEnd::through) out.document.reset();
  return out;
}

void keep_me(Shelf& shelf, const files::MeDocument& document, const files::ZoneSource& zones,
             base::Instant now) {
  const std::string text = files::write_me(document);
  files::MeRead read = files::read_me(text, zones);
  if (!read.document) throw base::InputError("who you are", std::move(read.faults));
  (void)shelf.store().put_person(text, files::me_schema_version, now);
}

}  // namespace weatherstruck::desk
