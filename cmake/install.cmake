# Headers, CMake package and pkg-config file. Nothing in them depends on the processor, hence share/ and ARCH_INDEPENDENT.
include(GNUInstallDirs)
include(CMakePackageConfigHelpers)

set(rackwork_package_directory "${CMAKE_INSTALL_DATADIR}/cmake/rackwork")
set(rackwork_pkgconfig_directory "${CMAKE_INSTALL_DATADIR}/pkgconfig")

# CMake 3.25 exports an absolute destination of a file set as if it were below the prefix; the way there from the prefix
# says the same and is exported correctly.
set(rackwork_header_directory "${CMAKE_INSTALL_INCLUDEDIR}")
if(IS_ABSOLUTE "${rackwork_header_directory}")
    file(RELATIVE_PATH rackwork_header_directory "${CMAKE_INSTALL_PREFIX}" "${CMAKE_INSTALL_INCLUDEDIR}")
endif()
install(TARGETS rackwork EXPORT rackwork_targets FILE_SET HEADERS DESTINATION "${rackwork_header_directory}")
install(EXPORT rackwork_targets
    NAMESPACE rackwork::
    FILE rackwork-targets.cmake
    DESTINATION "${rackwork_package_directory}")

# Before 1.0 a new minor version may change the interface, so only its patches are taken for one another.
if(PROJECT_VERSION_MAJOR EQUAL 0)
    set(rackwork_compatibility SameMinorVersion)
else()
    set(rackwork_compatibility SameMajorVersion)
endif()
write_basic_package_version_file("${CMAKE_CURRENT_BINARY_DIR}/rackwork-config-version.cmake"
    VERSION "${PROJECT_VERSION}"
    COMPATIBILITY ${rackwork_compatibility}
    ARCH_INDEPENDENT)
configure_package_config_file(
    "${CMAKE_CURRENT_LIST_DIR}/rackwork-config.cmake.in"
    "${CMAKE_CURRENT_BINARY_DIR}/rackwork-config.cmake"
    INSTALL_DESTINATION "${rackwork_package_directory}"
    NO_SET_AND_CHECK_MACRO)
install(FILES
    "${CMAKE_CURRENT_BINARY_DIR}/rackwork-config.cmake"
    "${CMAKE_CURRENT_BINARY_DIR}/rackwork-config-version.cmake"
    DESTINATION "${rackwork_package_directory}")

# The .pc file finds its prefix from where it lies, so the installed tree can be moved. That works only where both
# directories are below the prefix; an absolute one is written down as it is.
if(IS_ABSOLUTE "${rackwork_pkgconfig_directory}")
    set(rackwork_pc_prefix "${CMAKE_INSTALL_PREFIX}")
else()
    file(RELATIVE_PATH rackwork_pc_up "/prefix/${rackwork_pkgconfig_directory}" "/prefix")
    string(REGEX REPLACE "/$" "" rackwork_pc_up "${rackwork_pc_up}")
    set(rackwork_pc_prefix "\${pcfiledir}/${rackwork_pc_up}")
endif()
if(IS_ABSOLUTE "${CMAKE_INSTALL_INCLUDEDIR}")
    set(rackwork_pc_includedir "${CMAKE_INSTALL_INCLUDEDIR}")
else()
    set(rackwork_pc_includedir "\${prefix}/${CMAKE_INSTALL_INCLUDEDIR}")
endif()
configure_file("${CMAKE_CURRENT_LIST_DIR}/rackwork.pc.in" "${CMAKE_CURRENT_BINARY_DIR}/rackwork.pc" @ONLY)
install(FILES "${CMAKE_CURRENT_BINARY_DIR}/rackwork.pc" DESTINATION "${rackwork_pkgconfig_directory}")

install(FILES LICENSE DESTINATION "${CMAKE_INSTALL_DOCDIR}")
