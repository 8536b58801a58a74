insert into duty_plans (yard_id, version, plan, "by", saved_ms) values ('yard', 1, '{"rota":[]}', 'person', 15);
insert into contact_ways (id, person_id, channel, address, told_from, created_ms, gone_ms, gone_detail) values ('way', 'person', 'email', 'wren@example.org', 'high', 16, null, null);
insert into inbound_texts (key, person_id, address, text, received_ms, done_ms, outcome) values ('text', 'person', '+441632960123', 'seen K7', 17, 18, 'seen K7');
update messages set kind = 'answer', maybe_sent = 1, held_for = null, told_in = null;
update message_attempts set maybe_sent = 1;
