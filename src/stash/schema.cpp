#include "stash/schema.hpp"

#include <string>

namespace battwright::stash {

// Amounts are whole millionths (millionths.hpp): micrograms, micrometres, millionths of the money.
// Colours: r, g, b are non-linear sRGB; l, a, b are Lab under D65.
const char* schema_of_version_2() {
    return R"sql(
CREATE TABLE setting (key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT, WITHOUT ROWID;

CREATE TABLE lot (
    id INTEGER PRIMARY KEY,
    mark TEXT NOT NULL UNIQUE CHECK (length(mark) = 6),
    name TEXT NOT NULL,
    form TEXT NOT NULL,
    raw INTEGER NOT NULL CHECK (raw IN (0, 1)),
    yield_pct REAL NOT NULL CHECK (yield_pct > 0 AND yield_pct <= 100),
    cost INTEGER CHECK (cost >= 0),
    currency TEXT NOT NULL,
    maker TEXT NOT NULL,
    got_on TEXT NOT NULL,
    place TEXT NOT NULL,
    photo TEXT NOT NULL,
    notes TEXT NOT NULL,
    staple_mm REAL,
    diameter_um REAL,
    mean_l REAL, mean_a REAL, mean_b REAL
) STRICT;
CREATE TABLE content (
    lot INTEGER NOT NULL REFERENCES lot (id),
    position INTEGER NOT NULL,
    fibre TEXT NOT NULL,
    share_pct REAL NOT NULL,
    PRIMARY KEY (lot, position)
) STRICT, WITHOUT ROWID;
CREATE TABLE tint (
    lot INTEGER NOT NULL REFERENCES lot (id),
    position INTEGER NOT NULL,
    r REAL NOT NULL, g REAL NOT NULL, b REAL NOT NULL,
    share_pct REAL NOT NULL,
    PRIMARY KEY (lot, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE batt (
    id INTEGER PRIMARY KEY,
    name TEXT NOT NULL,
    made_on TEXT NOT NULL,
    recipe TEXT NOT NULL,
    preparation TEXT NOT NULL,
    batts INTEGER NOT NULL CHECK (batts >= 1),
    retained_share REAL NOT NULL,
    l REAL, a REAL, b REAL,
    notes TEXT NOT NULL,
    taken_back_on TEXT NOT NULL
) STRICT;

CREATE TABLE movement (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    lot INTEGER NOT NULL REFERENCES lot (id),
    reason TEXT NOT NULL,
    micrograms INTEGER NOT NULL,
    made_on TEXT NOT NULL,
    note TEXT NOT NULL,
    cost INTEGER CHECK (cost >= 0),
    batt INTEGER REFERENCES batt (id),
    of_movement INTEGER REFERENCES movement (id),
    CHECK (CASE reason
        WHEN 'bought' THEN micrograms > 0
        WHEN 'carded' THEN micrograms < 0 AND batt IS NOT NULL
        WHEN 'taken back' THEN micrograms > 0 AND batt IS NOT NULL AND of_movement IS NOT NULL
        WHEN 'wasted' THEN micrograms < 0
        WHEN 'given' THEN micrograms < 0
        WHEN 'scoured' THEN micrograms < 0
        WHEN 'weighed' THEN micrograms <> 0
        WHEN 'corrected' THEN micrograms <> 0 AND of_movement IS NOT NULL
        ELSE 0 END)
) STRICT;
CREATE INDEX movement_of_lot ON movement (lot);
CREATE INDEX movement_of_batt ON movement (batt) WHERE batt IS NOT NULL;
CREATE INDEX movement_of_movement ON movement (of_movement) WHERE of_movement IS NOT NULL;

CREATE TABLE on_hand (
    lot INTEGER PRIMARY KEY REFERENCES lot (id),
    micrograms INTEGER NOT NULL CHECK (micrograms >= 0)
) STRICT;
CREATE TRIGGER lot_starts_empty AFTER INSERT ON lot BEGIN
    INSERT INTO on_hand (lot, micrograms) VALUES (new.id, 0);
END;
CREATE TRIGGER movement_is_summed AFTER INSERT ON movement BEGIN
    UPDATE on_hand SET micrograms = micrograms + new.micrograms WHERE lot = new.lot;
END;
CREATE TRIGGER movement_is_not_replaced BEFORE INSERT ON movement
WHEN EXISTS (SELECT 1 FROM movement WHERE id = new.id) BEGIN
    SELECT RAISE(ABORT, 'a movement is never replaced');
END;
CREATE TRIGGER movement_is_not_edited BEFORE UPDATE ON movement BEGIN
    SELECT RAISE(ABORT, 'a movement is never edited');
END;
CREATE TRIGGER movement_is_not_deleted BEFORE DELETE ON movement BEGIN
    SELECT RAISE(ABORT, 'a movement is never deleted');
END;

CREATE TABLE batt_line (
    batt INTEGER NOT NULL REFERENCES batt (id),
    position INTEGER NOT NULL,
    lot INTEGER NOT NULL REFERENCES lot (id),
    micrograms INTEGER NOT NULL CHECK (micrograms > 0),
    movement INTEGER NOT NULL REFERENCES movement (id),
    PRIMARY KEY (batt, position)
) STRICT, WITHOUT ROWID;
CREATE TRIGGER batt_line_is_not_edited BEFORE UPDATE ON batt_line BEGIN
    SELECT RAISE(ABORT, 'what went into a batt is never edited');
END;
CREATE TRIGGER batt_line_is_not_deleted BEFORE DELETE ON batt_line BEGIN
    SELECT RAISE(ABORT, 'what went into a batt is never deleted');
END;
CREATE TABLE off_drum (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    batt INTEGER NOT NULL REFERENCES batt (id),
    micrograms INTEGER NOT NULL CHECK (micrograms > 0),
    made_on TEXT NOT NULL,
    note TEXT NOT NULL
) STRICT;
CREATE INDEX off_drum_of_batt ON off_drum (batt);

CREATE TABLE skein (
    id INTEGER PRIMARY KEY,
    name TEXT NOT NULL,
    made_on TEXT NOT NULL,
    micrograms INTEGER NOT NULL CHECK (micrograms >= 0),
    micrometres INTEGER NOT NULL CHECK (micrometres >= 0),
    wpi REAL NOT NULL,
    plies INTEGER NOT NULL,
    preparation TEXT NOT NULL,
    nominal_m REAL, low_m REAL, high_m REAL, foretold_g REAL, foretold_text TEXT,
    counts INTEGER NOT NULL CHECK (counts IN (0, 1)),
    photo TEXT NOT NULL,
    note TEXT NOT NULL,
    became TEXT NOT NULL
) STRICT;
CREATE TABLE skein_from (
    skein INTEGER NOT NULL REFERENCES skein (id),
    position INTEGER NOT NULL,
    batt INTEGER NOT NULL REFERENCES batt (id),
    share_pct REAL NOT NULL,
    PRIMARY KEY (skein, position)
) STRICT, WITHOUT ROWID;
CREATE INDEX skein_from_batt ON skein_from (batt);
CREATE TABLE allocation (
    id INTEGER PRIMARY KEY,
    skein INTEGER NOT NULL REFERENCES skein (id),
    project TEXT NOT NULL,
    micrometres INTEGER NOT NULL CHECK (micrometres > 0)
) STRICT;
CREATE INDEX allocation_of_skein ON allocation (skein);
)sql";
}

// What a skein was planned as: version 3 adds it.
const char* plan_schema() {
    return R"sql(
CREATE TABLE skein_plan (
    skein INTEGER PRIMARY KEY REFERENCES skein (id),
    wanted_wpi REAL NOT NULL,
    strands INTEGER NOT NULL,
    changed_plan INTEGER NOT NULL CHECK (changed_plan IN (0, 1)),
    law INTEGER NOT NULL,
    confirmed INTEGER NOT NULL CHECK (confirmed IN (0, 1))
) STRICT;
)sql";
}

// Photos of batts and of samples carded by hand, and what they showed: version 4 adds it. Colours are Lab
// under D65. log_m and its standard deviation are what the photo says of ln m; mixing_* is how ln(variation)
// goes with ln(mixing), level + slope x + bend x^2, and by_m with ln m, give or take sd; none where it says
// nothing.
const char* photo_schema() {
    return R"sql(
CREATE TABLE batt_photo (
    id INTEGER PRIMARY KEY,
    batt INTEGER REFERENCES batt (id),
    name TEXT NOT NULL,
    recipe TEXT NOT NULL,
    made_on TEXT NOT NULL,
    photo TEXT NOT NULL,
    taken TEXT NOT NULL,
    mm_per_pixel REAL NOT NULL CHECK (mm_per_pixel > 0),
    l REAL NOT NULL, a REAL NOT NULL, b REAL NOT NULL,
    variation_de00 REAL,
    streak_mm REAL,
    patches INTEGER NOT NULL CHECK (patches >= 0),
    unfit TEXT NOT NULL,
    foretold_l REAL NOT NULL, foretold_a REAL NOT NULL, foretold_b REAL NOT NULL,
    foretold_variation_de00 REAL,
    log_m REAL, log_m_sd REAL,
    mixing_level REAL, mixing_slope REAL, mixing_bend REAL, mixing_by_m REAL,
    mixing_sd REAL,
    misfit REAL NOT NULL,
    model INTEGER NOT NULL,
    counts INTEGER NOT NULL CHECK (counts IN (0, 1)),
    confirmed INTEGER NOT NULL CHECK (confirmed IN (0, 1)),
    note TEXT NOT NULL
) STRICT;
CREATE INDEX batt_photo_of_batt ON batt_photo (batt);
)sql";
}

// What colours a skein has: version 5 adds it. r, g, b are non-linear sRGB.
const char* skein_colour_schema() {
    return R"sql(
CREATE TABLE skein_tint (
    skein INTEGER NOT NULL REFERENCES skein (id),
    position INTEGER NOT NULL,
    r REAL NOT NULL, g REAL NOT NULL, b REAL NOT NULL,
    share_pct REAL NOT NULL,
    PRIMARY KEY (skein, position)
) STRICT, WITHOUT ROWID;
)sql";
}

const char* present_schema() {
    static_assert(present_version == 5,
                  "a new version has a layout of its own; the old one stays for the ladder");
    static const std::string whole =
        std::string(schema_of_version_2()) + plan_schema() + photo_schema() + skein_colour_schema();
    return whole.c_str();
}

}  // namespace battwright::stash
