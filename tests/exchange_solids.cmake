# Programs in which Open CASCADE reads the solids that the STEP and STL writers have written.

include("${PROJECT_SOURCE_DIR}/cmake/open_cascade.cmake")
find_path(RACKWORK_OPEN_CASCADE_STEP_HEADERS STEPControl_Reader.hxx PATH_SUFFIXES opencascade)
mark_as_advanced(RACKWORK_OPEN_CASCADE_STEP_HEADERS)
set(step_libraries "")
foreach(library IN ITEMS TKSTEP TKXSBase TKSTL TKShHealing)
    find_library(RACKWORK_OPEN_CASCADE_${library} ${library})
    mark_as_advanced(RACKWORK_OPEN_CASCADE_${library})
    list(APPEND step_libraries "${RACKWORK_OPEN_CASCADE_${library}}")
endforeach()
if(NOT TARGET rackwork_open_cascade OR NOT RACKWORK_OPEN_CASCADE_STEP_HEADERS OR step_libraries MATCHES "NOTFOUND")
    message(FATAL_ERROR
        "The tests of solids read them with Open CASCADE, which is missing (Debian package libocct-data-exchange-dev). "
        "Install it, or leave 'exchange' out of RACKWORK_TEST_GROUPS.")
endif()

add_executable(exchange_occt_solids exchange/occt_solids.cpp)
add_executable(exchange_occt_pairs exchange/occt_pairs.cpp $<TARGET_OBJECTS:test_main>)
add_executable(exchange_occt_stl_solids exchange/occt_stl_solids.cpp $<TARGET_OBJECTS:test_main>)
add_executable(exchange_occt_inertia exchange/occt_inertia.cpp $<TARGET_OBJECTS:test_main>)
foreach(program IN ITEMS exchange_occt_solids exchange_occt_pairs exchange_occt_stl_solids exchange_occt_inertia)
    target_link_libraries(${program} PRIVATE test_support ${step_libraries} rackwork_open_cascade)
endforeach()
# In parts, so that several processors can share the work.
add_test(NAME "exchange.occt_solids" COMMAND exchange_occt_solids "--test-case-exclude=random*")
add_test(NAME "exchange.occt_random_solids" COMMAND exchange_occt_solids "--test-case=random*")
add_test(NAME "exchange.occt_pairs" COMMAND exchange_occt_pairs "--test-case-exclude=*internal*")
add_test(NAME "exchange.occt_internal_pairs" COMMAND exchange_occt_pairs "--test-case=*internal wheel*")
add_test(NAME "exchange.occt_stl_solids" COMMAND exchange_occt_stl_solids)
add_test(NAME "exchange.occt_inertia" COMMAND exchange_occt_inertia)
set_tests_properties("exchange.occt_solids" "exchange.occt_random_solids" "exchange.occt_pairs" "exchange.occt_internal_pairs"
    "exchange.occt_stl_solids" "exchange.occt_inertia"
    PROPERTIES LABELS exchange TIMEOUT 600)
