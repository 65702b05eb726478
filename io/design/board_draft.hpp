#pragma once

#include <optional>
#include <string>
#include <vector>

#include "io/toml/table_reader.hpp"

namespace vrid {

/// A piece of a text and what is to stand there instead.
struct TextEdit {
    std::size_t at = 0, length = 0; ///< [bytes]; length 0: inserted before `at`
    std::string with;
};

/// The text with all edits made; they do not overlap. Several insertions at one place keep their
/// order.
std::string with_edits(const std::string& text, std::vector<TextEdit> edits);

/// The byte of a file's text at a place that the parser tells; `reading` is the one of parse_toml.
std::size_t offset_of(const std::string& text, const Reading& reading,
                      const toml::source_position& position);

/// A number for a file: the fewest digits that give back the value rounded to twelve significant
/// ones, so that 6.8500000000000005 is 6.85.
std::string file_number(double value);

/// A text in double quotes for a file, on one line.
std::string quoted(const std::string& text);

/// A table of a board file that may get other values.
struct DraftTable {
    const toml::table* table = nullptr;
    bool braces = false; ///< { } or inside one: all on the lines of its keys
};

/// The text of a board file and what is to change in it.
struct BoardDraft {
    const std::string& text;
    std::string newline; ///< as the text ends its lines
    Reading reading;
    toml::table root;
    std::vector<TextEdit> edits;
    std::string appended; ///< new tables, lines ended by \n
};

/// Parses the text. It must outlive the draft. \throws InputError for a syntax error
BoardDraft board_draft(const std::string& text, const std::string& file);

/// The table of this name in a table; nothing if there is none.
std::optional<DraftTable> table_in(const DraftTable& table, const std::string& name);
/// The tables of an array: [[layer]] or plies = [{...}]; empty if there is none.
std::vector<DraftTable> tables_in(const DraftTable& table, const std::string& name);

/// Writes the number (in the unit of the file) over the node, which is one already.
void set_number(BoardDraft& draft, const toml::node& node, double value);
/// The same for the key of a table, which is added if it is absent.
void set_number(BoardDraft& draft, const DraftTable& table, const std::string& key, double value);
/// Writes the text over that of a key that is there.
void set_text(BoardDraft& draft, const DraftTable& table, const std::string& key,
              const std::string& value);
/// Adds a table at the end, with a comment above. \throws InputError if the outer table that it
/// belongs to ("material") stands in braces, where none can be added
void add_table(BoardDraft& draft, const std::string& outer, const std::string& comment,
               const std::string& table);

/// The text with everything changed.
std::string finished(const BoardDraft& draft);

} // namespace vrid
