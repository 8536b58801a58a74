insert into leases (name, holder, fence, beat) values ('rules', null, 3, 4);
insert into processes (id, standing, beat) values ('gone', '{}', 5);
insert into deeds (id, yard_id, alarm_id, event, created_ms, answer) values ('deed', 'yard', 'alarm', '{"kind":"acknowledge"}', 21, '{}');
