#include <iostream>

int main() {
    std::cout << "vrid " VRID_VERSION "\n";
    return 0;
}
