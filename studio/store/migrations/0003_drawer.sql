-- The files of the drawer start with the names of their columns.
INSERT INTO revision (document, number, made, shows, back, tip, again, what, tags, text) VALUES
    (1, 1, 0, 1, 0, 1, 0, 'an empty drawer', '', 'stock,width,height,unit,grain,direction,on_hand,pack,price,note' || char(10)),
    (2, 1, 0, 1, 0, 1, 0, 'no dies', '', 'name,tool,shape,unit,width,height,set' || char(10)),
    (3, 1, 0, 1, 0, 1, 0, 'no own envelopes', '', 'name,kind,unit,short,long,depth,out_short,out_long,weight' || char(10)),
    (4, 1, 0, 1, 0, 1, 0, 'no own mail classes', '', 'id,operator,also,country,service,rank,class,unit,min_long,min_short,min_up_to,min_thick,max_long,max_short,max_thick,max_sum,max_weight,aspect_min,aspect_max,flexible,even,check,as_of,status,note,source' || char(10)),
    (5, 1, 0, 1, 0, 1, 0, 'no prices', '', 'class,up_to,price,currency,as_of' || char(10));

-- A cut took sheets out of the drawer and put off-cuts in, by the revision of the papers that it made; or it took such a
-- cut back.
CREATE TABLE cut (
    id INTEGER PRIMARY KEY,
    document INTEGER NOT NULL CHECK (document = 1),
    revision INTEGER NOT NULL,
    undoes INTEGER REFERENCES cut (id),
    plan TEXT NOT NULL,
    FOREIGN KEY (document, revision) REFERENCES revision (document, number) DEFERRABLE INITIALLY DEFERRED
) STRICT;

CREATE TABLE movement (
    cut INTEGER NOT NULL REFERENCES cut (id),
    place INTEGER NOT NULL,
    change INTEGER NOT NULL CHECK (change <> 0),      -- sheets: below 0 taken out, above 0 put in
    stock TEXT NOT NULL,
    width INTEGER NOT NULL,                           -- nanometres
    height INTEGER NOT NULL,
    unit TEXT NOT NULL,
    grain TEXT NOT NULL,
    directed INTEGER NOT NULL,
    note TEXT NOT NULL,
    PRIMARY KEY (cut, place)
) STRICT;

PRAGMA user_version = 3;
