#include "solver/cases/foot_strip.hpp"

namespace vrid {

std::vector<double> foot_lines(const Board& board) {
    const double half = board.stance->foot_length / 2;
    const double rear = board.stance->rear();
    const double front = board.stance->front();
    return {rear - half, rear + half, front - half, front + half};
}

std::vector<int> foot_strip(const Board& board, const PlateModel& model, double foot) {
    const double half = board.stance->foot_length / 2;
    return strip_nodes(model, foot - half, foot + half);
}

void clamp_foot(Loading& loading, const Board& board, const PlateModel& model, double foot) {
    const std::vector<int> nodes = foot_strip(board, model, foot);
    for (const Component c : {comp_u, comp_v, comp_w, comp_bx, comp_by}) {
        prescribe(loading, nodes, c);
    }
}

BenchCase
clamped_foot_case(End end, const std::string& suffix,
                  const std::function<void(Loading&, const PlateModel&, double contact)>& load) {
    const auto contact = end == End::nose ? nose_contact : tail_contact;
    BenchCase bench;
    bench.info.name = (end == End::nose ? "nose" : "tail") + suffix;
    bench.info.held = "every freedom on the foot strip of that end";
    bench.needs_feet = true;
    bench.stations = [contact](const Board& board) {
        std::vector<double> x = foot_lines(board);
        x.push_back(contact(board));
        return x;
    };
    bench.loading = [end, contact, load](const Board& board, const PlateModel& model) {
        Loading loading = free_loading(model);
        clamp_foot(loading, board, model,
                   end == End::nose ? board.stance->front() : board.stance->rear());
        load(loading, model, contact(board));
        return loading;
    };
    return bench;
}

} // namespace vrid
