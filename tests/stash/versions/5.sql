-- A stash of version 4 as the program of that version wrote it. Frozen: never brought up to date.
BEGIN;
CREATE TABLE allocation (
    id INTEGER PRIMARY KEY,
    skein INTEGER NOT NULL REFERENCES skein (id),
    project TEXT NOT NULL,
    micrometres INTEGER NOT NULL CHECK (micrometres > 0)
) STRICT;
INSERT INTO "allocation" VALUES(1,1,'mitts',60000000);
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
INSERT INTO "batt" VALUES(1,'Kelp and Brass','2024-05-01','format = 1
name = "Kelp and Brass"
[[component]]
lot = "FGHR3C"
fibre = "merino-fine"
colour = "#8a96a0"
staple = "80 mm"
weight = "40 g"
[[component]]
lot = "DRWK4T"
blend = [ { fibre = "tussah-silk", share = "70 %" }, { fibre = "polwarth", share = "30 %" } ]
colours = [ { colour = "#b08d3c", share = "60 %" }, { colour = "#d8c38a", share = "40 %" } ]
weight = "20 g"
','woollen',1,1.0,6.23735987436681824655e+01,-4.20696577858531384208e+00,1.39151691851156620314e+01,'','');
CREATE TABLE batt_line (
    batt INTEGER NOT NULL REFERENCES batt (id),
    position INTEGER NOT NULL,
    lot INTEGER NOT NULL REFERENCES lot (id),
    micrograms INTEGER NOT NULL CHECK (micrograms > 0),
    movement INTEGER NOT NULL REFERENCES movement (id),
    PRIMARY KEY (batt, position)
) STRICT, WITHOUT ROWID;
INSERT INTO "batt_line" VALUES(1,0,1,40000000,4);
INSERT INTO "batt_line" VALUES(1,1,2,20000000,5);
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
INSERT INTO "batt_photo" VALUES(1,1,'Kelp and Brass','','2024-05-02','/pictures/kelp.jpg','edge',0.21,6.0125e+01,-3.75e+00,1.2875e+01,2.125,3.5,42,'',6.225e+01,-4.25e+00,1.3875e+01,1.75,-1.8125,0.625,0.5625,0.75,0.125,-0.25,0.3125,0.75,1,1,0,'by the window');
INSERT INTO "batt_photo" VALUES(2,NULL,'Three pinches','format = 1
name = "Three pinches"
[[component]]
fibre = "corriedale"
colour = "#1a1716"
weight = "1 g"
[[component]]
fibre = "corriedale"
colour = "#efe9dc"
weight = "1 g"
','2024-05-03','/pictures/pinch.jpg','sample',0.1,4.45e+01,1.25e+00,3.5e+00,NULL,NULL,4,'lamp-light',4.55e+01,1.5e+00,4.25e+00,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,0.0,1,1,0,'');
CREATE TABLE content (
    lot INTEGER NOT NULL REFERENCES lot (id),
    position INTEGER NOT NULL,
    fibre TEXT NOT NULL,
    share_pct REAL NOT NULL,
    PRIMARY KEY (lot, position)
) STRICT, WITHOUT ROWID;
INSERT INTO "content" VALUES(1,0,'merino-fine',100.0);
INSERT INTO "content" VALUES(2,0,'tussah-silk',70.0);
INSERT INTO "content" VALUES(2,1,'polwarth',30.0);
INSERT INTO "content" VALUES(3,0,'romney',100.0);
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
INSERT INTO "lot" VALUES(1,'FGHR3C','Harbour fog','top',0,100.0,12500000,'EUR','','2024-04-03','blue chest','','it''s soft',80.0,NULL,6.14414119266499625382e+01,-2.17191981058578731378e+00,-6.7128618655851735042e+00);
INSERT INTO "lot" VALUES(2,'DRWK4T','Brass wrack','braid',0,100.0,NULL,'','','2024-04-05','','','',NULL,NULL,69.003543855734,1.67096151254841895905e+00,3.72472749415234858369e+01);
INSERT INTO "lot" VALUES(3,'GXFY4C','Gull fleece','fleece',1,65.0,NULL,'','Saltmarsh Farm','2024-04-07','','','',NULL,NULL,91.5039581878813,-2.67890663418646202131e-01,1.08315454053697468594e+01);
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
INSERT INTO "movement" VALUES(1,1,'bought',200000000,'2024-04-03','',NULL,NULL,NULL);
INSERT INTO "movement" VALUES(2,2,'bought',60000000,'2024-04-05','',NULL,NULL,NULL);
INSERT INTO "movement" VALUES(3,3,'bought',300000000,'2024-04-07','',NULL,NULL,NULL);
INSERT INTO "movement" VALUES(4,1,'carded',-40000000,'2024-05-01','',NULL,1,NULL);
INSERT INTO "movement" VALUES(5,2,'carded',-20000000,'2024-05-01','',NULL,1,NULL);
INSERT INTO "movement" VALUES(6,1,'weighed',-2000000,'2024-06-02','',NULL,NULL,NULL);
INSERT INTO "movement" VALUES(7,2,'wasted',-2000000,'2024-06-02','',NULL,NULL,NULL);
CREATE TABLE off_drum (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    batt INTEGER NOT NULL REFERENCES batt (id),
    micrograms INTEGER NOT NULL CHECK (micrograms > 0),
    made_on TEXT NOT NULL,
    note TEXT NOT NULL
) STRICT;
INSERT INTO "off_drum" VALUES(1,1,57000000,'2024-05-01','');
CREATE TABLE on_hand (
    lot INTEGER PRIMARY KEY REFERENCES lot (id),
    micrograms INTEGER NOT NULL CHECK (micrograms >= 0)
) STRICT;
INSERT INTO "on_hand" VALUES(1,158000000);
INSERT INTO "on_hand" VALUES(2,38000000);
INSERT INTO "on_hand" VALUES(3,300000000);
CREATE TABLE setting (key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT, WITHOUT ROWID;
INSERT INTO "setting" VALUES('currency','EUR');
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
INSERT INTO "skein" VALUES(1,'ebb','2024-06-01',52000000,180000000,14.0,2,'woollen',1.64429986453904092508e+02,1.2104221289442979526e+02,2.23370176393026866881e+02,54.72,'batt 1, 100 %: 163.9 m (120.6 to 222.6 m in four of five) from 54.5 g, 12 wpi, 332.8 tex, 2 strands, resting on 0 skeins
',1,'','','');
INSERT INTO "skein" VALUES(2,'Kelp and Brass','2024-07-01',20000000,64000000,13.0,2,'woollen',1.37600942920794864219e+02,1.11726116137676470432e+02,2.84981285505441348957e+02,54.72,'batt 1, 100 %: 177.8 m (111.3 to 284 m in four of five) from 54.5 g, 12 wpi, 306.7 tex, 2 strands, resting on 1 skeins
',1,'','','');
CREATE TABLE skein_from (
    skein INTEGER NOT NULL REFERENCES skein (id),
    position INTEGER NOT NULL,
    batt INTEGER NOT NULL REFERENCES batt (id),
    share_pct REAL NOT NULL,
    PRIMARY KEY (skein, position)
) STRICT, WITHOUT ROWID;
INSERT INTO "skein_from" VALUES(1,0,1,100.0);
INSERT INTO "skein_from" VALUES(2,0,1,100.0);
CREATE TABLE skein_tint (
    skein INTEGER NOT NULL REFERENCES skein (id),
    position INTEGER NOT NULL,
    r REAL NOT NULL, g REAL NOT NULL, b REAL NOT NULL,
    share_pct REAL NOT NULL,
    PRIMARY KEY (skein, position)
) STRICT, WITHOUT ROWID;
INSERT INTO "skein_tint" VALUES(2,0,0.25,0.5,0.375,62.5);
INSERT INTO "skein_tint" VALUES(2,1,0.75,0.625,0.25,37.5);
CREATE TABLE skein_plan (
    skein INTEGER PRIMARY KEY REFERENCES skein (id),
    wanted_wpi REAL NOT NULL,
    strands INTEGER NOT NULL,
    changed_plan INTEGER NOT NULL CHECK (changed_plan IN (0, 1)),
    law INTEGER NOT NULL,
    confirmed INTEGER NOT NULL CHECK (confirmed IN (0, 1))
) STRICT;
INSERT INTO "skein_plan" VALUES(2,12.0,2,0,2,0);
CREATE TABLE tint (
    lot INTEGER NOT NULL REFERENCES lot (id),
    position INTEGER NOT NULL,
    r REAL NOT NULL, g REAL NOT NULL, b REAL NOT NULL,
    share_pct REAL NOT NULL,
    PRIMARY KEY (lot, position)
) STRICT, WITHOUT ROWID;
INSERT INTO "tint" VALUES(1,0,5.41176470588235258851e-01,5.88235294117647078415e-01,6.27450980392156854037e-01,100.0);
INSERT INTO "tint" VALUES(2,0,6.90196078431372539441e-01,5.52941176470588269253e-01,2.35294117647058820264e-01,60.0);
INSERT INTO "tint" VALUES(2,1,8.4705882352941175295e-01,7.64705882352941124224e-01,5.41176470588235258851e-01,40.0);
CREATE INDEX movement_of_lot ON movement (lot);
CREATE INDEX movement_of_batt ON movement (batt) WHERE batt IS NOT NULL;
CREATE INDEX movement_of_movement ON movement (of_movement) WHERE of_movement IS NOT NULL;
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
CREATE TRIGGER batt_line_is_not_edited BEFORE UPDATE ON batt_line BEGIN
    SELECT RAISE(ABORT, 'what went into a batt is never edited');
END;
CREATE TRIGGER batt_line_is_not_deleted BEFORE DELETE ON batt_line BEGIN
    SELECT RAISE(ABORT, 'what went into a batt is never deleted');
END;
CREATE INDEX batt_photo_of_batt ON batt_photo (batt);
CREATE INDEX off_drum_of_batt ON off_drum (batt);
CREATE INDEX skein_from_batt ON skein_from (batt);
CREATE INDEX allocation_of_skein ON allocation (skein);
DELETE FROM "sqlite_sequence";
INSERT INTO "sqlite_sequence" VALUES('movement',7);
INSERT INTO "sqlite_sequence" VALUES('off_drum',1);
PRAGMA application_id = 1113683060;
PRAGMA user_version = 5;
COMMIT;
