#pragma once
// The time of each row of a table.
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "csv_columns.h"
#include "weatherstruck/base/zone.h"

namespace weatherstruck::feed {

/// Rows come in order; faults go to `add`.
class RowTimes {
 public:
  RowTimes(const Header& header, const std::optional<base::Zone>& zone, std::function<void(base::Fault)> add)
      : header_(header), zone_(zone), add_(std::move(add)) {}

  [[nodiscard]] std::optional<base::Instant> read(const std::vector<std::string>& fields,
                                                  const std::string& place);
  /// After the last row. An hour that the clocks give twice has both its rows, the earlier first, or it is
  /// not known which is meant.
  void finish();

 private:
  [[nodiscard]] std::string text_of(const std::vector<std::string>& fields) const;
  [[nodiscard]] std::optional<base::Instant> in_zone(base::LocalTime local, const std::string& place);

  const Header& header_;
  const std::optional<base::Zone>& zone_;
  std::function<void(base::Fault)> add_;
  bool zone_told_ = false;
  struct Twice {
    int rows = 0;
    std::string place;  // of the first
  };
  std::map<base::LocalTime, Twice> twice_;
};

}  // namespace weatherstruck::feed
