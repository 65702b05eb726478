#include "io/verbs/help.hpp"

#include <algorithm>
#include <map>
#include <sstream>

#include "io/write/caution.hpp"
#include "mesh/board/lists.hpp"

namespace vrid {

namespace {

// Text as man takes it literally.
std::string roff(const std::string& text) {
    std::string all;
    bool begins = true;
    for (const char letter : text) {
        if (begins && (letter == '.' || letter == '\'')) {
            all += "\\&";
        }
        if (letter == '\\') {
            all += "\\e";
        } else if (letter == '-') {
            all += "\\-";
        } else {
            all += letter;
        }
        begins = letter == '\n';
    }
    return all;
}

std::string upper(std::string text) {
    for (char& letter : text) {
        letter = letter >= 'a' && letter <= 'z' ? static_cast<char>(letter - 'a' + 'A') : letter;
    }
    return text;
}

std::string head(const std::string& name, int section, const std::string& what) {
    return ".TH " + upper(name) + " " + std::to_string(section) + " \"\" \"" + program_name() +
           "\" \"vrid\"\n.SH NAME\n" + roff(name) + " \\- " + roff(what) + "\n";
}

std::string roff_paragraphs(const std::string& text) {
    std::string all;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find("\n\n", at), text.size());
        all += ".PP\n" + roff(text.substr(at, end - at)) + "\n";
        at = end + 2;
    }
    return all;
}

std::string verb_section(const Verb& verb) {
    std::string all = ".SS vrid " + roff(verb.name + " " + verb.positional) + "\n" +
                      roff(verb.summary) + "\n" + roff_paragraphs(verb.about);
    for (const Option& option : verb.options) {
        all += ".TP\n.B " + roff(option.name) +
               (option.value.empty() ? "" : " \\fI" + roff(option.value) + "\\fR") + "\n" +
               roff(option.what) + "\n";
    }
    all += ".PP\n.nf\n";
    for (const std::string& example : verb.examples) {
        all += "  " + roff(example) + "\n";
    }
    return all + ".fi\n";
}

// Every word that may stand after a verb as an option.
std::string option_words(const Verb& verb) {
    std::string words = "--help";
    for (const Option& option : verb.options) {
        words += " " + option.name;
    }
    return words;
}

// Branches of the script: what may stand behind an option, or behind a verb that takes a name.
std::string known_values() {
    std::map<std::string, std::string> by_words;
    const auto add = [&](const std::string& before, const std::vector<std::string>& known) {
        if (!known.empty()) {
            std::string& patterns = by_words[joined(known, "\n")];
            patterns += (patterns.empty() ? "'" : " | '") + before + "'";
        }
    };
    for (const Verb& verb : verbs()) {
        std::vector<std::string> known = verb.known;
        if (verb.name ==
            "help") { // it tells of verbs, too, and its own row comes before their table
            std::ranges::transform(verbs(), std::back_inserter(known), &Verb::name);
        }
        add(verb.name + " " + verb.name, known);
        for (const Option& option : verb.options) {
            add(verb.name + " " + option.name, option.known);
        }
    }
    std::string all;
    for (const auto& [words, patterns] : by_words) {
        all += "        " + patterns + ") known='" + words + "' ;;\n";
    }
    return all;
}

} // namespace

std::string manual_page() {
    std::string all = head("vrid", 1, "torsional stiffness, flex and edge hold of snowboards");
    all += ".SH SYNOPSIS\n.B vrid\n\\fIVERB\\fR ... [options]\n.SH DESCRIPTION\n";
    all += roff("Reads a board file (what the shop draws, cuts and lays up), solves it with plate "
                "finite elements, and prints the numbers with the error bars of the computation. "
                "Results go to standard output, progress and warnings to standard error.") +
           "\n.SH CAUTION\n" + roff(caution) + "\n.SH VERBS\n";
    for (const Verb& verb : verbs()) {
        all += verb_section(verb);
    }
    all += ".SH EXIT STATUS\n";
    for (const auto& [status, meaning] : exit_meanings()) {
        all += ".TP\n.B " + status + "\n" + roff(meaning) + "\n";
    }
    all += ".SH SEE ALSO\n";
    for (const Topic& topic : topics()) {
        all += (&topic == &topics().front() ? ".BR vrid\\-" : ",\n.BR vrid\\-") + roff(topic.name) +
               " (5)";
    }
    return all + "\n";
}

std::string topic_page(const Topic& topic) {
    return head("vrid-" + topic.name, 5, topic.summary) + ".SH DESCRIPTION\n.nf\n" +
           roff(topic.text()) + ".fi\n.SH SEE ALSO\n.BR vrid (1)\n";
}

std::string bash_completion() {
    std::string names;
    for (const Verb& verb : verbs()) {
        names += verb.name + " ";
    }
    std::ostringstream out;
    out << "# bash completion of vrid, written by 'vrid help --completion'\n"
           "_vrid() {\n"
           "    local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]}\n"
           "    local options=--help known= whole=\n"
           "    COMPREPLY=()\n"
           "    if [ \"$COMP_CWORD\" -eq 1 ]; then\n"
           "        COMPREPLY=($(compgen -W '"
        << names
        << "--help --version' -- \"$word\"))\n"
           "        return\n"
           "    fi\n"
           "    case ${COMP_WORDS[1]} in\n";
    for (const Verb& verb : verbs()) {
        out << "        " << verb.name << ") options='" << option_words(verb) << "' ;;\n";
    }
    out << "    esac\n"
           "    case \"${COMP_WORDS[1]} $before\" in\n"
        << known_values()
        << "    esac\n"
           "    if [[ $word == -* ]]; then\n"
           "        COMPREPLY=($(compgen -W \"$options\" -- \"$word\"))\n"
           "    elif [ -n \"$known\" ]; then\n" // a name may have blanks, a list has commas
           "        local IFS=$'\\n'\n"
           "        [[ $word == *,* ]] && whole=${word%,*},\n"
           "        COMPREPLY=($(compgen -P \"$whole\" -W \"$known\" -- \"${word##*,}\"))\n"
           "        [ \"$before\" = --set ] && compopt -o nospace 2>/dev/null\n"
           "    else\n"
           "        COMPREPLY=($(compgen -f -- \"$word\"))\n"
           "    fi\n"
           "}\n"
           "complete -o filenames -F _vrid vrid\n";
    return out.str();
}

} // namespace vrid
