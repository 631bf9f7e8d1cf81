# The stand-alone interpreter of an open machine control runs the programs that we write.
find_program(RACKWORK_INTERPRETER NAMES rs274 DOC "Interpreter of machine programs")
if(NOT RACKWORK_INTERPRETER)
    message(FATAL_ERROR
        "The tests of machine programs need the interpreter rs274, which is missing (Debian package linuxcnc-uspace). "
        "Install it, or leave 'exchange' out of RACKWORK_TEST_GROUPS.")
endif()
rackwork_add_test_program(exchange "${CMAKE_CURRENT_LIST_DIR}/exchange/gcode_interpreter.cpp")
target_compile_definitions(exchange_gcode_interpreter PRIVATE "RACKWORK_INTERPRETER=\"${RACKWORK_INTERPRETER}\"")
set(scratch "${CMAKE_CURRENT_BINARY_DIR}/scratch/exchange/gcode_interpreter")
file(MAKE_DIRECTORY "${scratch}")
set_tests_properties("exchange.gcode_interpreter" PROPERTIES WORKING_DIRECTORY "${scratch}")
