-- A data folder's database as the first released tables held it. Nobody edits this file.
PRAGMA foreign_keys=OFF;
BEGIN TRANSACTION;
CREATE TABLE boards (
    id TEXT PRIMARY KEY, name TEXT NOT NULL, demo INTEGER NOT NULL,
    created_at INTEGER NOT NULL, retired_at INTEGER
  ) STRICT;
INSERT INTO boards VALUES('b-fuses-000000001','Six Spare Fuses',0,1900000000000,NULL);
INSERT INTO boards VALUES('b-demo-0000000001','Six Spare Fuses',1,1900000100000,1900000200000);
INSERT INTO boards VALUES('b-demo-0000000002','Six Spare Fuses',1,1900000200000,NULL);
CREATE TABLE links (
    id TEXT PRIMARY KEY, board TEXT NOT NULL, role TEXT NOT NULL, secret_hash TEXT NOT NULL UNIQUE,
    label TEXT NOT NULL, created_at INTEGER NOT NULL, expires_at INTEGER, revoked_at INTEGER
  ) STRICT;
INSERT INTO links VALUES('l-horns-000000001','b-fuses-000000001','member','secret-hash-1','For the horns',1900000001000,1900009999000,NULL);
INSERT INTO links VALUES('l-crowd-000000001','b-fuses-000000001','guest','secret-hash-2','',1900000002000,NULL,1900000003000);
CREATE TABLE devices (
    id TEXT PRIMARY KEY, board TEXT NOT NULL, role TEXT NOT NULL, token_hash TEXT NOT NULL UNIQUE,
    member_id TEXT, created_at INTEGER NOT NULL
  ) STRICT;
INSERT INTO devices VALUES('d-anneli-00000001','b-fuses-000000001','leader','token-hash-1','anneli',1900000000500);
INSERT INTO devices VALUES('d-karim-000000001','b-fuses-000000001','member','token-hash-2',NULL,1900000004000);
CREATE TABLE updates (
    seq INTEGER PRIMARY KEY AUTOINCREMENT, board TEXT NOT NULL, device TEXT NOT NULL, member TEXT,
    at INTEGER NOT NULL, bytes BLOB NOT NULL
  ) STRICT;
INSERT INTO updates VALUES(3,'b-fuses-000000001','d-anneli-00000001','anneli',1900000005000,X'010203');
INSERT INTO updates VALUES(4,'b-demo-0000000002','server',NULL,1900000200000,X'04');
INSERT INTO updates VALUES(7,'b-fuses-000000001','d-karim-000000001',NULL,1900000006000,X'00FF');
DELETE FROM sqlite_sequence;
INSERT INTO sqlite_sequence VALUES('updates',7);
CREATE INDEX links_of_board ON links (board);
CREATE INDEX updates_of_board ON updates (board);
COMMIT;
PRAGMA user_version=1;
