update quarantine set yard_id = 'yard';
insert into counters (name, value) values ('quarantine:yard', 7);
