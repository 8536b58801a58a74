update journal_entries set depth_metres = 0.4, press_key = 'press', taken_back_ms = null;
insert into journal_photos (entry_id, width_pixels, height_pixels, jpeg) values ('entry', 640, 480, :bytes);
insert into pile_designs (pile_id, design, saved_ms) values ('pile', '{"method":"static-cage"}', 19);
