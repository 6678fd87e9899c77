-- A stash of version 1. Frozen: never brought up to date.
CREATE TABLE lot (id INTEGER PRIMARY KEY, name TEXT NOT NULL, fibre TEXT NOT NULL, colour TEXT,
    form TEXT NOT NULL, cost REAL, currency TEXT NOT NULL, maker TEXT NOT NULL, got_on TEXT NOT NULL,
    place TEXT NOT NULL, notes TEXT NOT NULL);
CREATE TABLE batt (id INTEGER PRIMARY KEY, name TEXT NOT NULL, made_on TEXT NOT NULL, recipe TEXT NOT NULL);
CREATE TABLE movement (id INTEGER PRIMARY KEY, lot INTEGER NOT NULL REFERENCES lot (id), reason TEXT NOT NULL,
    grams REAL NOT NULL, made_on TEXT NOT NULL, note TEXT NOT NULL, batt INTEGER REFERENCES batt (id));
CREATE INDEX movement_of_lot ON movement (lot);
CREATE TABLE skein (id INTEGER PRIMARY KEY, batt INTEGER REFERENCES batt (id), name TEXT NOT NULL,
    made_on TEXT NOT NULL, grams REAL NOT NULL, metres REAL NOT NULL, wpi REAL NOT NULL, plies INTEGER NOT NULL,
    preparation TEXT NOT NULL, nominal_m REAL, note TEXT NOT NULL, became TEXT NOT NULL);
PRAGMA application_id = 1113683060;
PRAGMA user_version = 1;
INSERT INTO lot VALUES (3, 'Harbour fog', 'merino-fine', '#8a96a0', 'top', 12.5, 'EUR', 'Saltmarsh Farm',
    '2021-04-03', 'blue chest', 'it''s soft; DROP TABLE');
INSERT INTO lot VALUES (7, 'old rope', 'jute-of-legend', NULL, 'bundle', NULL, '', '', '', '', '');
INSERT INTO batt VALUES (2, 'Kelp and Brass', '2021-05-01', 'format = 1');
INSERT INTO movement VALUES (1, 3, 'bought', 100.1, '2021-04-03', '', NULL);
INSERT INTO movement VALUES (2, 7, 'bought', 30, '2021-04-04', '', NULL);
INSERT INTO movement VALUES (3, 3, 'carded', -33.3333333333, '2021-05-01', '', 2);
INSERT INTO movement VALUES (4, 7, 'carded', -10, '2021-05-01', '', 2);
INSERT INTO movement VALUES (5, 3, 'corrected', -0.5, '2021-05-02', 'damp', NULL);
INSERT INTO movement VALUES (6, 7, 'given', -25, '2021-05-03', 'to the net loft', NULL);
INSERT INTO movement VALUES (7, 3, 'wasted', -0.0000000001, '2021-05-03', 'nothing', NULL);
INSERT INTO skein VALUES (5, 2, 'ebb', '2021-06-01', 40.2, 182.88, 14, 2, 'worsted', 160, 'slack water', 'mitts');
INSERT INTO skein VALUES (6, NULL, 'from before', '2021-06-02', 50, 0, 0, 0, 'woollen', NULL, '', '');
