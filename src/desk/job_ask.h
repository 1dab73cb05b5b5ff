#pragma once
// The questions of a job, in their order. For job_talk only.
#include <functional>
#include <map>
#include <string>
#include <vector>

#include "weatherstruck/desk/talk.h"
#include "weatherstruck/files/me_json.h"
#include "weatherstruck/files/zone_source.h"
#include "weatherstruck/works/answer_pieces.h"
#include "weatherstruck/works/answer_words.h"
#include "weatherstruck/works/job.h"

namespace weatherstruck::desk {

/// Leaving and being home, by the clock of home; both into job.trip.
void ask_trip(Talk& talk, works::Job& job, base::Instant now);

/// Cuts the working days of a trip near enough to drive home each evening to what the drives leave of them;
/// false where nothing is cut.
bool fit_days(works::Job& job);

/// Of a door, steps or a gate: 900 mm or 3 ft.
[[nodiscard]] base::Metres usual_clear_width(works::Measure measure);

/// The strip that the rules ask for under a wall of that bond.
[[nodiscard]] works::StripSize usual_strip(const works::Job& job, works::Measure measure, trade::Bond bond);
/// Of a strip that reaches as far beyond the ends of its wall as beyond the faces, in whole 25 mm or inches.
[[nodiscard]] base::Metres strip_length(base::Metres wall, const works::StripSize& strip,
                                        works::Measure measure, trade::Bond bond);
/// Courses that fill what is left between the concrete and the ground.
[[nodiscard]] int courses_out_of_sight(const works::StripSize& strip);

/// One run through the questions, all but the last. Keys of questions about a part are "bed-2:size": the
/// part, a colon, the matter.
class JobAsk {
 public:
  JobAsk(Talk& talk, const files::MeDocument& me, base::Instant now, const std::vector<std::string>& taken,
         const files::ZoneSource& zones);
  [[nodiscard]] works::Job run();
  /// By which questions each part was asked for: "shelter" -> "base".
  [[nodiscard]] const std::map<works::Name, std::string>& part_keys() const { return part_keys_; }

 private:
  void head();
  void place();
  void days();
  void parts();
  void base(const std::string& key);
  void base_opening(const std::string& key, works::Base& base);
  void base_footing(const std::string& key, works::Base& base, int showing);
  void wall(const std::string& key);
  void bed(const std::string& key);
  void box(const std::string& key);
  void steps(const std::string& key, const std::optional<int>& risers);
  void path(const std::string& key);
  void extras();
  void way_in();
  void hours();
  void supplies();
  void merchant();
  void waiting();
  void price();

  [[nodiscard]] works::Name free_name(const works::Name& wanted) const;
  /// What the checks find wrong with these parts behind the rest, as a refusal; nullopt where nothing is.
  [[nodiscard]] std::optional<works::Refused> wrong_with(const std::vector<works::Part>& parts) const;
  void add(const std::string& key, works::Part part);

  int count(const std::string& key, const std::string& words, int low, int high, std::string_view of,
            std::optional<int> usual, const std::string& help);
  works::Size size(const std::string& key, const std::string& words, works::LengthRange length,
                   works::LengthRange width, const std::string& help);

  Talk& talk_;
  const files::MeDocument& me_;
  base::Instant now_;
  const std::vector<std::string>& taken_;
  const files::ZoneSource& zones_;
  works::Measure measure_;
  works::Job job_;
  std::map<works::Name, std::string> part_keys_;
};

}  // namespace weatherstruck::desk
