update people set language = 'en';
insert into wordings (yard_id, version, overrides, "by", saved_ms) values ('yard', 1, '{}', 'person', 20);
