#include "io/design/new_board.hpp"

#include "io/design/board_draft.hpp"

namespace vrid {

std::string new_board_text(const std::string& text, const std::string& file,
                           const std::string& verb) {
    BoardDraft draft = board_draft(text, file);
    const std::string mark = "(" + verb + ")";
    if (const auto name = draft.root["name"].value<std::string>(); name && !name->ends_with(mark)) {
        set_text(draft, {&draft.root, false}, "name", *name + " " + mark);
    }
    const std::string comment =
        "# Values changed by vrid " + verb + "; strength was not looked at.";
    std::string all = finished(draft);
    constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
    const std::size_t start = all.starts_with(byte_order_mark) ? byte_order_mark.size() : 0;
    if (!std::string_view(all).substr(start).starts_with(comment)) {
        all.insert(start, comment + draft.newline);
    }
    return all;
}

std::string renamed_board_text(const std::string& text, const std::string& file,
                               const std::string& name) {
    BoardDraft draft = board_draft(text, file);
    if (draft.root["name"].is_string()) {
        set_text(draft, {&draft.root, false}, "name", name);
    }
    return finished(draft);
}

} // namespace vrid
