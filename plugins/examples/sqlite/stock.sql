-- Invented data. A pump has its points in the order of their flow.
CREATE TABLE pump (
    item_number TEXT PRIMARY KEY,
    description TEXT NOT NULL,
    price       REAL,
    on_hand     INTEGER -- NULL is not known
);
CREATE TABLE point (
    item_number  TEXT NOT NULL REFERENCES pump,
    flow_l_per_h REAL NOT NULL,
    head_m       REAL NOT NULL,
    power_w      REAL NOT NULL,
    PRIMARY KEY (item_number, flow_l_per_h)
);
INSERT INTO pump VALUES
    ('S-40', 'submersible pump, foam cage, 10 m cable', 79.0, 6),
    ('S-90', 'solids pump, dry or wet', 189.0, 0),
    ('S-91', 'solids pump, price on request', NULL, NULL);
INSERT INTO point VALUES
    ('S-40', 0, 2.6, 30), ('S-40', 2000, 1.9, 36), ('S-40', 4000, 0.3, 40),
    ('S-90', 0, 4.8, 80), ('S-90', 5000, 3.5, 100), ('S-90', 9000, 0.6, 110),
    ('S-91', 0, 5.5, 120), ('S-91', 8000, 3.6, 150), ('S-91', 12000, 1.0, 160);
