# rackwork::instances: the library, and the one source file that holds the templates which rackwork/instances.hpp declares. It is compiled
# as part of whatever links this target, with that target's own flags, so nothing binary is ever installed.
include(GNUInstallDirs)
set(rackwork_instances_directory "${CMAKE_INSTALL_DATADIR}/rackwork")
# As with the headers (install.cmake), an absolute directory is exported as the way there from the prefix: CMake refuses to export a source
# whose absolute path lies in the source tree, as it does in a trial installation below the build directory.
if(IS_ABSOLUTE "${rackwork_instances_directory}")
    file(RELATIVE_PATH rackwork_instances_directory "${CMAKE_INSTALL_PREFIX}" "${rackwork_instances_directory}")
endif()
add_library(rackwork_instances INTERFACE)
add_library(rackwork::instances ALIAS rackwork_instances)
set_target_properties(rackwork_instances PROPERTIES EXPORT_NAME instances)
target_link_libraries(rackwork_instances INTERFACE rackwork)
target_sources(rackwork_instances INTERFACE
    "$<BUILD_INTERFACE:${PROJECT_SOURCE_DIR}/cmake/instances.cpp>"
    "$<INSTALL_INTERFACE:$<INSTALL_PREFIX>/${rackwork_instances_directory}/instances.cpp>")
if(RACKWORK_INSTALL)
    install(TARGETS rackwork_instances EXPORT rackwork_targets)
    install(FILES "${PROJECT_SOURCE_DIR}/cmake/instances.cpp" DESTINATION "${rackwork_instances_directory}")
endif()
