// A solved order on its way into the archive, and what the archive remembers when the dancer comes
// again.
#pragma once

#include "cli/archive/archive_entry.hpp"
#include "cli/archive/archive_opening.hpp"
#include "cli/job/request.hpp"
#include "cli/job/solved_order.hpp"
#include "cli/surroundings/exit_code.hpp"
#include "export/drawing/corrected_drawing.hpp"
#include "export/drawing/drawing.hpp"

#include <iosfwd>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <vector>

namespace shankline {

/// The version that writes into the archive.
std::string program_version();

/// Now, or what SOURCE_DATE_EPOCH says: "2026-03-14T09:26:53Z".
std::string time_now();

/// `pdf` is the drawing's, and `printer` the one that it was drawn for.
ArchiveEntry entry_of(const SolvedOrder& solved, const std::string& solution_json,
                      const Drawing& drawing, const std::string& pdf, const Request& request,
                      const std::optional<PrinterDrawing>& printer);

/// Opens the archive for a verb. What waits in its outbox is sent first, and said; what cannot be
/// sent is a caution.
std::unique_ptr<Store> open_and_send(const std::string& archive, ArchiveUse use,
                                     std::ostream& messages);

/// Delivers what waits in the outbox of `place`, a server's address, and says what was done. Throws
/// ArchiveFault.
ExitCode send_waiting(const std::string& place, std::ostream& out, std::ostream& messages);

/// Saves one entry after the other through one open archive. Once the server cannot be reached, the
/// entry and all that follow are kept in its outbox. An open archive on which nothing is being read
/// or written does not hinder another bench's forgetting.
class EntrySaver {
public:
  EntrySaver(const std::string& archive, std::ostream& messages)
      : archive_(archive), messages_(messages) {}

  /// The entry as it was saved; nullopt if it waits in the outbox, which is reported. If the
  /// archive has a cut of the very same order, a caution says that this is one more pair. Throws
  /// ArchiveFault.
  std::optional<EntryHead> save(ArchiveEntry entry);

  /// Like save(), but leaves out a cut of whose very order the archive or the outbox has one: a
  /// caution names it. `file` is the order's. Returns the number of the entry that stands for the
  /// order; 0 if it waits in the outbox, or if several stand for it.
  EntryId save_once(ArchiveEntry entry, const std::string& file);

private:
  /// Cuts of one and the same order, the oldest first.
  struct SameOrder {
    std::vector<EntryId> kept;
    bool waits = false; ///< one of them is in the outbox
  };
  SameOrder same_order(const ArchiveEntry& entry);
  /// Null if the server is away.
  Store* reach();
  void lose(const std::string& why);
  std::optional<EntryHead> add(const ArchiveEntry& entry);
  std::optional<EntryHead> keep(const ArchiveEntry& entry, const std::string& why);

  const std::string& archive_;
  std::ostream& messages_;
  std::unique_ptr<Store> store_; ///< null until the first entry
  std::string away_; ///< why the server could not be reached; it is not tried for every entry anew
  std::set<std::string> waiting_; ///< digests of the orders in the outbox, once the server is away
};

/// One line where others than its owner may read or change the archive. Does not open it.
void say_others_rights(const std::string& archive, std::ostream& messages);

/// One line on the dancer's last cut and its outcome; empty if there is none. "Last" is the latest
/// day: the order's date, else the day of saving; of two with one day the one that was saved later.
/// Never makes an archive; one that cannot be read is a caution. Says others' rights too, unless a
/// save will.
std::string last_time(const std::string& dancer, const ArchiveWish& archive, Units units,
                      std::ostream& messages);

} // namespace shankline
