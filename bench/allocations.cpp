// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Replaces operator new by one that counts. What the standard library adds (arrays, alignment) comes down to these two.
#include "allocations.hpp"

#include <cstddef>
#include <cstdlib>
#include <new>

namespace {
long count = 0;
}

long bench::allocations_so_far() { return count; }

void* operator new(std::size_t size) {
    ++count;
    if (void* memory = std::malloc(size == 0 ? 1 : size)) return memory;
    throw std::bad_alloc();
}
void operator delete(void* memory) noexcept { std::free(memory); }
void operator delete(void* memory, std::size_t) noexcept { std::free(memory); }
