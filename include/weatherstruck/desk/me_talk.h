#pragma once
// Who he is: asked, kept in the record, taken from it.
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "weatherstruck/desk/shelf.h"
#include "weatherstruck/desk/talk.h"
#include "weatherstruck/files/me_json.h"
#include "weatherstruck/files/zone_source.h"

namespace weatherstruck::desk {

struct KeptMe {
  files::MeDocument document;
  std::int64_t version = 0;  ///< of the record
};

/// nullopt where he has not been asked yet.
/// @throws base::InputError where what is kept cannot be read (a newer program may have written it)
/// @throws record::RecordError
[[nodiscard]] std::optional<KeptMe> kept_me(Shelf& shelf, const files::ZoneSource& zones);
/// The same, or @throws base::InputError "not-asked-yet", which says what to do.
[[nodiscard]] KeptMe needed_me(Shelf& shelf, const files::ZoneSource& zones);

/// Asks about him. @param kept what stands in the brackets; nullopt: what is usual
/// @return nullopt unless the talk went through
struct MeTalk {
  TalkEnd end = TalkEnd::cut_off;
  std::optional<files::MeDocument> document;
};
/// @param only keys of the questions to ask, the rest keeping what is kept; empty: all
/// @param all false: of somebody new only what a first plan needs is asked
/// @param machine_zone by whose clock the machine goes, which somebody new is then not asked; empty: not
/// known
[[nodiscard]] MeTalk ask_me(Talk& talk, const std::optional<files::MeDocument>& kept,
                            const files::ZoneSource& zones, const std::vector<std::string>& only = {},
                            bool all = true, const std::string& machine_zone = {});

/// The keys of the questions about what he wants changed: "van", "change the crew and the van".
[[nodiscard]] works::Answer<std::vector<std::string>> me_topics(std::string_view text);

/// @throws base::InputError for a document that does not read back
void keep_me(Shelf& shelf, const files::MeDocument& document, const files::ZoneSource& zones,
             base::Instant now);

/// A mail address; "none" is the empty text.
[[nodiscard]] works::Answer<std::string> mail_answer(std::string_view text);

/// The zone of an IANA name, or of a town in one: "London", "new york", "Europe/London".
[[nodiscard]] works::Answer<base::Zone> zone_answer(std::string_view text, const files::ZoneSource& zones);

}  // namespace weatherstruck::desk
