#pragma once

#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include <Eigen/Core>
#include <toml++/toml.h>

#include "io/toml/ascii_text.hpp"
#include "mesh/board/error.hpp"
#include "mesh/board/layup.hpp"

namespace vrid {

/// A key that a file may have, as a dotted path: "layer.base.thickness_mm".
struct KeyPath {
    std::string path;
    bool number = false; ///< its value is a number
};

/// What stands in the file, short enough for a message: 3.5, the text "wide", an array of 2.
std::string shown(const toml::node& node);

/// Where keys and tables stand, "file:line:column" by dotted path: "layer.base.thickness_mm".
using KeyPlaces = std::map<std::string, std::string>;

/// One reading of one file: what was wrong so far, and which keys were asked for.
struct Reading {
    std::string file;
    std::vector<Problem> problems;
    std::vector<KeyPath> keys;
    std::vector<Widened> widened;    ///< of the file's ASCII spelling, to tell columns of the file
    std::vector<Problem> warnings{}; ///< what is accepted, but hardly meant
    KeyPlaces places{};              ///< of the keys that the file has
};

/// Notes a problem; beyond a few hundred only says that there are more.
void note_problem(Reading& reading, std::string place, std::string message);
/// Notes what is accepted but hardly meant; bounded as problems are.
void note_warning(Reading& reading, std::string place, std::string message);
/// The text of a file as a table. \throws InputError with the place of the syntax error.
toml::table parse_toml(const std::string& text, Reading& reading);
/// "file:line:column" of a place that the parser tells.
std::string place_text(const Reading& reading, const toml::source_position& position);

/// A number or a text in the file with its place.
struct ValueEntry {
    std::string path;
    std::variant<double, std::string> value; ///< a number as the file writes it
    std::string place;
};

/// Reads the values of one table. Values come back in SI, checked against accepted.hpp; what is
/// wrong goes to the Reading with file:line:column, and the value comes back as nan or empty, which
/// passes later comparisons. The table and the Reading must outlive it.
class TableReader {
  public:
    /// \param path dotted path for messages, "layer.base" \param kind for ranges, "layer"
    TableReader(Reading& reading, const toml::table& table, std::string place, std::string path,
                std::string kind);
    static TableReader root(Reading& reading, const toml::table& table);

    [[nodiscard]] bool has(std::string_view key) const;
    [[nodiscard]] std::string place(std::string_view key) const; ///< the table's if absent
    [[nodiscard]] const std::string& place() const { return place_; }
    [[nodiscard]] const std::string& path() const { return path_; }
    void rename(std::string path);
    [[nodiscard]] Reading& reading() const { return *reading_; }

    void problem(std::string_view key, const std::string& message);
    /// Accepted, but hardly meant.
    void warn(std::string_view key, const std::string& message);
    /// Problem with the value found: "found ...; accepted: ...".
    void wrong(std::string_view key, const std::string& what_is_accepted);
    /// A key that has no meaning here, though the format knows it.
    void refuse(std::string_view key, const std::string& why);
    /// Keys that could have been here: for the hints on unknown ones.
    void know(std::initializer_list<std::string_view> keys) {
        asked_.insert(keys.begin(), keys.end());
    }
    /// Every key that nobody asked for is a problem. Call last.
    void finish();

    double number(std::string_view key); ///< required; nan after a problem
    double number_or(std::string_view key, double otherwise);
    double number_or_default(std::string_view key); ///< of io/toml/board_keys
    std::optional<double> number_if(std::string_view key);
    int whole_number_or(std::string_view key, int otherwise);
    bool flag_or(std::string_view key, bool otherwise);
    std::string text(std::string_view key); ///< required; empty after a problem
    std::string text_if(std::string_view key);
    std::vector<std::string> texts(std::string_view key);  ///< required, at least one
    std::vector<double> number_list(std::string_view key); ///< required, at least one
    std::optional<Range> range_if(std::string_view key);
    std::optional<Eigen::Vector2d> pair(std::string_view key);   ///< required
    std::vector<Eigen::Vector2d> points(std::string_view key);   ///< required, [x, y] each
    std::vector<Eigen::Vector2d> stations(std::string_view key); ///< required, [x, value] each

    std::optional<TableReader> table_if(std::string_view key);
    std::vector<TableReader> tables(std::string_view key); ///< an array of tables; may be empty
    /// The tables in this table by name, each of the given kind.
    std::vector<std::pair<std::string, TableReader>> entries(const std::string& kind);
    /// All numbers and texts in this table and in tables within, by dotted path, in no unit and no
    /// range yet.
    std::vector<ValueEntry> flat_values();
    /// A number as the file writes it, in no unit and no range yet, or a text.
    std::optional<std::variant<double, std::string>> number_or_text_if(std::string_view key);

  private:
    const toml::node* ask(std::string_view key, bool is_number = false);
    const toml::node* require(std::string_view key, bool is_number = false);
    [[nodiscard]] std::string place_of(const toml::node& node) const;
    [[nodiscard]] std::string dotted(std::string_view key) const;
    double checked(const toml::node& node, const std::string& name, const std::string& range_key);
    std::string checked_text(std::string_view key, const toml::node& node);
    std::vector<double> numbers(std::string_view key, const toml::node& node);
    bool too_long(std::string_view key, const toml::array& array);
    std::vector<Eigen::Vector2d> pairs(std::string_view key, const std::string& first_range);
    void collect_values(const toml::table& table, const std::string& prefix,
                        std::vector<ValueEntry>& entries);
    const toml::array* list(std::string_view key);

    Reading* reading_;
    const toml::table* table_;
    std::string place_, path_, kind_;
    std::set<std::string, std::less<>> asked_;
};

} // namespace vrid
