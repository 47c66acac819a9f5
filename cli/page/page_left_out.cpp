// Stands in for page_server.cpp where the header of libmicrohttpd was missing when this was built.
#include "cli/page/page_server.hpp"

#include "cli/surroundings/source_date.hpp"

namespace shankline {

struct PageServer::Parts {};

PageServer::PageServer(const PageAnswers&, std::uint16_t) {
  throw EnvironmentFault("this program was built without the page: build it where the package "
                         "libmicrohttpd-dev is installed");
}

PageServer::~PageServer() = default;

const std::string& PageServer::origin() const {
  throw EnvironmentFault("there is no page");
}

const std::string& PageServer::token() const {
  throw EnvironmentFault("there is no page");
}

void PageServer::drop_slow_ones() {}

double PageServer::idle_seconds() const {
  return 0;
}

} // namespace shankline
