#pragma once
// The questions of a job, in their order. For job_talk only.
#include <string>
#include <vector>

#include "weatherstruck/desk/talk.h"
#include "weatherstruck/files/me_json.h"
#include "weatherstruck/files/zone_source.h"
#include "weatherstruck/works/answer_words.h"
#include "weatherstruck/works/job.h"

namespace weatherstruck::desk {

/// Leaving and being home, by the clock of home; both into job.trip.
void ask_trip(Talk& talk, works::Job& job, base::Instant now);

/// One run through the questions, all but the last.
class JobAsk {
 public:
  JobAsk(Talk& talk, const files::MeDocument& me, base::Instant now, const std::vector<std::string>& taken,
         const files::ZoneSource& zones);
  [[nodiscard]] works::Job run();

 private:
  void head();
  void place();
  void base();
  void beds();
  void rest_of_parts();
  void way_in();
  void hours();
  void supplies();
  void waiting();
  void price();

  [[nodiscard]] works::Name free_name(const works::Name& wanted) const;
  /// What the checks find wrong with the last part, as a refusal; nullopt where nothing is.
  [[nodiscard]] std::optional<works::Refused> wrong_with(const works::Part& part) const;

  base::Metres length(const std::string& key, const std::string& words, works::LengthRange range,
                      std::optional<base::Metres> usual, const std::string& help);
  int count(const std::string& key, const std::string& words, int low, int high, std::string_view of,
            std::optional<int> usual, const std::string& help);
  std::optional<works::Size> size(const std::string& key, const std::string& words, works::LengthRange length,
                                  works::LengthRange width, const std::string& help);

  Talk& talk_;
  const files::MeDocument& me_;
  base::Instant now_;
  const std::vector<std::string>& taken_;
  const files::ZoneSource& zones_;
  works::Measure measure_;
  works::Job job_;
};

}  // namespace weatherstruck::desk
