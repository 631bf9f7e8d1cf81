# A program draws outlines as arcs and splines, and a script reads the drawings with ezdxf; exchange_scripts.cmake has made sure of that.
add_executable(exchange_dxf_curves_drawings exchange/dxf_curves_drawings.cpp)
target_link_libraries(exchange_dxf_curves_drawings PRIVATE rackwork::rackwork rackwork_strict)
set(scratch "${CMAKE_CURRENT_BINARY_DIR}/scratch/exchange/dxf_curves")
file(MAKE_DIRECTORY "${scratch}")
add_test(NAME "exchange.dxf_curves"
    COMMAND "${RACKWORK_PYTHON}" "${CMAKE_CURRENT_LIST_DIR}/exchange/dxf_curves_check.py"
        "$<TARGET_FILE:exchange_dxf_curves_drawings>" "${scratch}"
    WORKING_DIRECTORY "${scratch}")
set_tests_properties("exchange.dxf_curves" PROPERTIES
    LABELS exchange TIMEOUT 300 ENVIRONMENT "PYTHONDONTWRITEBYTECODE=1")
