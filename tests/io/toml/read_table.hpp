#pragma once

#include <string>
#include <vector>

#include "io/toml/table_reader.hpp"

namespace vrid::tests {

/// A table of the file "f.toml" for a test to read: of the board file's `kind`.
class ReadTable {
  public:
    explicit ReadTable(const std::string& text, const std::string& kind = "")
        : reading_{"f.toml", {}, {}, {}}, parsed_(parse_toml(text, reading_)),
          reader(reading_, parsed_, "f.toml:1:1", kind, kind) {}
    ReadTable(const ReadTable&) = delete;
    ReadTable& operator=(const ReadTable&) = delete;
    /// What was wrong since this was last asked: "4:9 planform.waist_width_mm: ...".
    std::vector<std::string> problems() {
        std::vector<std::string> all;
        for (const Problem& problem : reading_.problems) {
            all.push_back(problem.place.substr(problem.place.find(':') + 1) + " " +
                          problem.message);
        }
        reading_.problems.clear();
        return all;
    }
    [[nodiscard]] const Reading& reading() const { return reading_; }

  private:
    Reading reading_;
    toml::table parsed_;

  public:
    TableReader reader;
};

} // namespace vrid::tests
