#pragma once
// The questions about him, in their order. For me_talk only.
#include "weatherstruck/desk/talk.h"
#include "weatherstruck/files/me_json.h"
#include "weatherstruck/files/zone_source.h"

namespace weatherstruck::desk {

/// One run through the questions. @param kept whether `usual` is what he said before
[[nodiscard]] files::MeDocument ask_about_him(Talk& talk, const files::MeDocument& usual, bool kept,
                                              const files::ZoneSource& zones);

}  // namespace weatherstruck::desk
