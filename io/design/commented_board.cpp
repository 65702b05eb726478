#include "io/design/new_board.hpp"

#include <set>
#include <sstream>
#include <vector>

#include "io/read/keys_text.hpp"
#include "io/toml/board_keys.hpp"

namespace vrid {

namespace {

using Lines = std::vector<std::string>;

std::string trimmed(const std::string& text) {
    const auto first = text.find_first_not_of(" \t\r");
    return first == std::string::npos
               ? ""
               : text.substr(first, text.find_last_not_of(" \t\r") - first + 1);
}

// Follows brackets and strings through the lines of a TOML text.
struct Scan {
    int depth = 0;        // of brackets open at the line's end
    bool comment = false; // the line has one

    void read(const std::string& line) {
        comment = false;
        char quote = 0;
        for (std::size_t i = 0; i < line.size(); ++i) {
            const char c = line[i];
            if (quote != 0) {
                i += quote == '"' && c == '\\' ? 1 : 0;
                quote = c == quote ? 0 : quote;
            } else if (c == '"' || c == '\'') {
                quote = c;
            } else if (c == '#') {
                comment = true;
                return;
            } else if (c == '[' || c == '{') {
                ++depth;
            } else if (c == ']' || c == '}') {
                --depth;
            }
        }
    }
};

// "layer" of [[layer]], "fabric.plies" of [[fabric."a.b".plies]]: the names of parts left out.
std::string table_of_header(const std::string& line) {
    const auto begin = line.find_first_not_of("[ ");
    std::vector<std::string> parts{""};
    char quote = 0;
    for (const char c : line.substr(begin, line.find(']') - begin)) {
        if (quote == 0 && c == '.') {
            parts.emplace_back();
        } else if (quote == 0 && (c == '"' || c == '\'')) {
            quote = c;
        } else if (c == quote) {
            quote = 0;
        } else {
            parts.back() += c;
        }
    }
    const std::string first = trimmed(parts.front());
    const bool by_name = first == "fabric" || first == "material" || first == "limits";
    if (by_name && parts.size() == 1) {
        return first + " by name"; // its keys are names, not those of the format
    }
    const std::size_t next = by_name ? 2 : 1;
    return parts.size() > next ? first + "." + trimmed(parts[next]) : first;
}

struct KeyLine {
    std::string table, key;
    bool operator<(const KeyLine& other) const {
        return table != other.table ? table < other.table : key < other.key;
    }
};

std::string sample_line(const BoardKey& key) {
    return "# " + std::string(key.key) + " = " + std::string(key.sample) + "  # " +
           key_comment(std::string(key.table), std::string(key.key));
}

// The row that tells what a table is for stands in the table around it.
std::string table_comment(const std::string& table) {
    const auto dot = table.find_last_of('.');
    const BoardKey* row = dot == std::string::npos
                              ? find_board_key("", table)
                              : find_board_key(table.substr(0, dot), table.substr(dot + 1));
    return row == nullptr ? "" : std::string(row->meaning);
}

class Commented {
  public:
    explicit Commented(const std::string& text) {
        std::istringstream in(text);
        for (std::string line; std::getline(in, line);) {
            if (line.ends_with('\r')) {
                line.pop_back();
            }
            lines_.push_back(line);
        }
        find_keys();
    }

    std::string text() {
        Scan scan;
        std::string table;
        Lines block;
        for (const std::string& line : lines_) {
            const bool header = scan.depth == 0 && trimmed(line).starts_with('[');
            const int before = scan.depth;
            if (header) {
                close(table, block);
                table = table_of_header(trimmed(line));
            }
            scan.read(line);
            header ? add_header(table, line, scan, block)
                   : add_line(table, line, before, scan, block);
        }
        close(table, block);
        std::vector<std::string> tables = board_tables();
        tables.emplace_back("tolerance"); // its keys are paths
        for (const std::string& name : tables) {
            if (!closed_.contains(name)) {
                add_absent(name);
            }
        }
        return out_;
    }

  private:
    // All keys that stand somewhere in the file on a line of their own.
    void find_keys() {
        Scan scan;
        std::string table;
        for (const std::string& line : lines_) {
            const bool begins = scan.depth == 0;
            if (begins && trimmed(line).starts_with('[')) {
                table = table_of_header(trimmed(line));
            } else if (begins) {
                present_.insert({table, key_of(line)});
            }
            scan.read(line);
        }
    }

    static std::string key_of(const std::string& line) {
        const std::string plain = trimmed(line);
        const auto end = plain.find_first_of("= \t#");
        return plain.starts_with('#') ? "" : plain.substr(0, end);
    }

    void add_header(const std::string& table, const std::string& line, const Scan& scan,
                    Lines& block) {
        const std::string comment = table_comment(table);
        const bool first = commented_.insert({table, ""}).second;
        block.push_back(line +
                        (first && !scan.comment && !comment.empty() ? "  # " + comment : ""));
    }

    void add_line(const std::string& table, const std::string& line, int before, const Scan& scan,
                  Lines& block) {
        const std::string key = before == 0 ? key_of(line) : "";
        const std::string comment = key.empty() ? "" : key_comment(table, key);
        if (comment.empty() || !commented_.insert({table, key}).second) {
            block.push_back(line);
        } else if (scan.depth == 0 && !scan.comment) {
            block.push_back(line + "  # " + comment);
        } else {
            block.push_back("# " + key + ": " + comment);
            block.push_back(line);
        }
    }

    // The table ends: what it could also have goes before the empty lines and comments at its end.
    void close(const std::string& table, Lines& block) {
        auto end = block.end();
        while (end != block.begin() && (trimmed(end[-1]).empty() || end[-1].starts_with('#'))) {
            --end;
        }
        Lines more;
        if (closed_.insert(table).second && (!table.empty() || !block.empty())) {
            for (const BoardKey& key : board_keys()) {
                const bool leaf = !key.sample.empty() && key.table == table;
                if (leaf && !present_.contains({table, std::string(key.key)})) {
                    more.push_back(sample_line(key));
                }
            }
        }
        block.insert(end, more.begin(), more.end());
        for (const std::string& line : block) {
            out_ += line + "\n";
        }
        block.clear();
    }

    // A table that the file has not, or only between braces.
    void add_absent(const std::string& table) {
        const auto dot = table.find_last_of('.');
        const bool inside = dot != std::string::npos;
        const std::string name = table == "material" ? "material.NAME"
                                 : table == "fabric" ? "fabric.NAME"
                                 : table == "limits" ? "limits.nose-twist"
                                                     : table;
        out_ += inside ? "\n# what " + table.substr(dot + 1) + " in [" + table.substr(0, dot) +
                             "] may hold: " + table_comment(table) + "\n"
                       : "\n# [" + name + "]  # " + table_comment(table) + "\n";
        for (const BoardKey& key : board_keys()) {
            if (key.table == table) {
                out_ += sample_line(key) + "\n";
            }
        }
    }

    Lines lines_;
    std::set<KeyLine> present_, commented_;
    std::set<std::string> closed_;
    std::string out_;
};

} // namespace

std::string commented_board(const std::string& text) {
    return Commented(text).text();
}

} // namespace vrid
