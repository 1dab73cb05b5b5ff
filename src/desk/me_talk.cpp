#include "weatherstruck/desk/me_talk.h"

#include <algorithm>
#include <array>
#include <string>
#include <utility>

#include "me_ask.h"
#include "weatherstruck/works/answer_pieces.h"

namespace weatherstruck::desk {

using works::Answer;
using works::Refused;

namespace {

/// What stands in the brackets for somebody who was never asked.
files::MeDocument nobody_yet(const files::ZoneSource& zones, const std::optional<base::Zone>& clock) {
  const files::ZoneRead london = zones.find("Europe/London");
  works::Me me = works::usual_me(clock         ? *clock
                                 : london.zone ? *london.zone
                                               : base::Zone::fixed("UTC", std::chrono::seconds(0)));
  // What most vans carry: common practice, no source.
  me.kit.hessian = base::SquareMetres(20);
  me.kit.sheet = base::SquareMetres(30);
  return {std::move(me), {}};
}

}  // namespace

Answer<std::string> mail_answer(std::string_view text) {
  if (works::says_none(text)) return std::string();
  const Refused refused{"a mail address, such as name@example.org, or none"};
  auto said = works::text_answer(text, 120);
  const auto* mail = std::get_if<std::string>(&said);
  if (mail == nullptr || mail->find(' ') != std::string::npos) return refused;
  const std::size_t at = mail->find('@');
  if (at == std::string::npos || at == 0 || at + 1 >= mail->size() ||
      mail->find('@', at + 1) != std::string::npos)
    return refused;
  return said;
}

Answer<base::Zone> zone_answer(std::string_view text, const files::ZoneSource& zones) {
  const Refused refused{
      "a town that a time zone is named for, such as London, Dublin or New York, or a name such as "
      "Europe/London"};
  // Countries of one clock that people name in place of it.
  constexpr auto countries =
      std::to_array<std::pair<std::string_view, std::string_view>>({{"uk", "Europe/London"},
                                                                    {"gb", "Europe/London"},
                                                                    {"britain", "Europe/London"},
                                                                    {"england", "Europe/London"},
                                                                    {"wales", "Europe/London"},
                                                                    {"scotland", "Europe/London"},
                                                                    {"cardiff", "Europe/London"},
                                                                    {"edinburgh", "Europe/London"},
                                                                    {"ireland", "Europe/Dublin"}});
  std::string small_letters(text);
  for (char& c : small_letters) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  for (const auto& [country, name] : countries) {
    if (small_letters != country) continue;
    if (auto read = zones.find(name); read.zone) return *std::move(read.zone);
  }
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
      "who you are", {{"not-asked-yet", "", "", "",
                       "Say first who you are: run \"weatherstruck me\" once. Enter takes what is usual."}});
}

Answer<std::vector<std::string>> me_topics(std::string_view text) {
  struct Topic {
    std::string_view word;
    std::vector<std::string> keys;
  };
  static const std::vector<Topic> topics{{"name", {"name"}},
                                         {"address", {"address"}},
                                         {"mail", {"contact"}},
                                         {"clock", {"clock"}},
                                         {"limits", {"rules"}},
                                         {"bricks", {"bricks"}},
                                         {"crew", {"mate"}},
                                         {"mixer", {"mixer"}},
                                         {"covers", {"covers"}},
                                         {"van", {"van"}},
                                         {"days", {"day"}},
                                         {"mixes", {"mixes"}},
                                         {"charges",
                                          {"charges", "currency", "day-work", "travel", "materials", "tax",
                                           "tax-number", "days-to-pay", "pay-to"}}};
  // What he may call them.
  constexpr std::array<std::pair<std::string_view, std::string_view>, 26> also{
      {{"mail address", "mail"}, {"e-mail", "mail"},   {"email", "mail"},     {"contact", "mail"},
       {"town", "clock"},        {"zone", "clock"},    {"units", "limits"},   {"limit", "limits"},
       {"pace", "bricks"},       {"mate", "crew"},     {"labourer", "crew"},  {"hessian", "covers"},
       {"sheeting", "covers"},   {"canopy", "covers"}, {"lights", "covers"},  {"kit", "covers"},
       {"payload", "van"},       {"day", "days"},      {"hours", "days"},     {"mortar", "mixes"},
       {"concrete", "mixes"},    {"rates", "charges"}, {"prices", "charges"}, {"tax", "charges"},
       {"vat", "charges"},       {"bank", "charges"}}};
  std::vector<std::string> keys;
  const std::vector<std::string> pieces = works::pieces_of(text);
  for (std::string_view piece : pieces) {
    for (const std::string_view opening : {"change ", "the ", "my "}) {
      if (piece.rfind(opening, 0) == 0) piece = piece.substr(opening.size());
    }
    for (const auto& [said, word] : also) {
      if (piece == said) piece = word;
    }
    const auto topic =
        std::find_if(topics.begin(), topics.end(), [&](const Topic& one) { return one.word == piece; });
    if (topic == topics.end()) {
      keys.clear();
      break;
    }
    keys.insert(keys.end(), topic->keys.begin(), topic->keys.end());
  }
  if (!keys.empty()) return keys;
  std::string all;
  for (const Topic& one : topics)
    all += (all.empty() ? "" : ", ") + std::string(one.word);
  return Refused{"yes for all of it, no, or what to change: " + all};
}

MeTalk ask_me(Talk& talk, const std::optional<files::MeDocument>& kept, const files::ZoneSource& zones,
              const std::vector<std::string>& only, bool all, const std::string& machine_zone) {
  const std::optional<base::Zone> clock = machine_zone.empty() ? std::nullopt : zones.find(machine_zone).zone;
  const files::MeDocument usual = kept ? *kept : nobody_yet(zones, clock);
  if (!only.empty()) {
    talk.ask_only(
        [only](std::string_view key) { return std::find(only.begin(), only.end(), key) != only.end(); });
  }
  if (!all && only.empty() && !kept) {
    talk.short_form([known = clock.has_value()](std::string_view key) {
      if (key == "clock") return !known;
      constexpr std::array<std::string_view, 4> later{"address", "rules", "mixes", "charges"};
      return std::find(later.begin(), later.end(), key) == later.end();
    });
  }
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
