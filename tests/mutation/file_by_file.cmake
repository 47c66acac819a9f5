# What the campaign changes is compiled file by file, so that a change costs one file. Read by CMake
# after the project's first line; the libraries are made later.
cmake_language(DEFER CALL set_target_properties shankline_geometry shankline_export
               PROPERTIES UNITY_BUILD OFF)
