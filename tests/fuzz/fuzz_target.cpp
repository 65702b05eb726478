// A libFuzzer program for one reader: vrid_fuzz --reader=board FOLDER [libFuzzer's options]. FOLDER
// keeps what it finds; its first texts are written there.
#include <cstdint>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <string>
#include <string_view>

#include "tests/fuzz/mutation.hpp"
#include "tests/fuzz/readers.hpp"

extern "C" std::size_t LLVMFuzzerMutate(std::uint8_t* data, std::size_t size, std::size_t most);

namespace {

const vrid::tests::Reader* reader = nullptr;

void write_seeds(const std::string& folder) {
    std::filesystem::create_directories(folder);
    int number = 0;
    for (const std::string& text : reader->seeds()) {
        std::ofstream(folder + "/seed-" + std::to_string(number++), std::ios::binary) << text;
    }
}

} // namespace

extern "C" int LLVMFuzzerInitialize(int* count, char*** words) {
    const std::string_view option = "--reader=";
    for (int i = 1; i < *count; ++i) {
        const std::string_view word = (*words)[i];
        if (word.starts_with(option)) {
            reader = &vrid::tests::reader_named(std::string(word.substr(option.size())));
        }
    }
    for (int i = 1; reader != nullptr && i < *count; ++i) {
        if ((*words)[i][0] != '-' && !std::filesystem::is_regular_file((*words)[i])) {
            write_seeds((*words)[i]);
        }
    }
    if (reader == nullptr) {
        std::cerr
            << "name a reader: --reader=board, outline, goal, bench, lot, rig, result, suite\n";
        std::exit(2);
    }
    return 0;
}

extern "C" std::size_t LLVMFuzzerCustomMutator(std::uint8_t* data, std::size_t size,
                                               std::size_t most, unsigned seed) {
    std::mt19937 random(seed);
    if (random() % 16 == 0) {
        return LLVMFuzzerMutate(data, size, most);
    }
    std::string text = vrid::tests::mutated({reinterpret_cast<const char*>(data), size}, random);
    text.resize(std::min(text.size(), most));
    std::memcpy(data, text.data(), text.size());
    return text.size();
}

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    try {
        reader->read({reinterpret_cast<const char*>(data), size});
    } catch (const std::exception& error) { // the fuzzer keeps the input that ends the program
        std::cerr << "fault: " << error.what() << "\n";
        std::abort();
    }
    return 0;
}
