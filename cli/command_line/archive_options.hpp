// The archive's part of the command line.
#pragma once

#include "cli/job/allowed_value.hpp"
#include "cli/job/request.hpp"

#include <functional>
#include <string>

namespace CLI {
class App;
class Option;
} // namespace CLI

namespace shankline {

/// Lets the option take only the allowed values; CLI11 reports any other as a usage error.
void restrict_to(CLI::Option& option, const AllowedValue& to);

/// An option takes one of `seen_words`, or what `seen_word` reads as one, and keeps that word.
void restrict_to_seen_word(CLI::Option& option);

/// An option takes a short code, as readers and judges have one.
void restrict_to_code(CLI::Option& option);

/// An option takes a day, however it is typed, and keeps it as year-month-day.
void restrict_to_day(CLI::Option& option);

/// Gives the verb its actions, each with its options; `add_saving` those of a cut that is saved,
/// `add_sheets` those of what is drawn.
void add_archive(CLI::App& verb, Request& request, const std::function<void(CLI::App&)>& add_saving,
                 const std::function<void(CLI::App&)>& add_sheets);

/// Adds --archive, for verbs that may keep or recall entries.
void add_archive_file(CLI::App& verb, Request& request);

/// Adds --drying, the hours that a worn pair takes to dry.
void add_drying(CLI::App& verb, Request& request);

/// Returns why the options contradict each other, as a sentence for the user; empty if they do not.
/// CLI11 checks each option alone.
std::string archive_contradiction(const ArchiveWish& wish);

} // namespace shankline
