#pragma once
#include "desk/session.h"
#include "desk/sheet.h"

namespace cistern::desk {

/// The reading once it stands: every answer, to be looked at.
void toldReading(Flow& flow, Session& session);

} // namespace cistern::desk
