/** The README of an export: whoever opens it years from now has nothing but this folder. */
export const explanation = `What this is
============
Everything a compost yard owned in Tilthwatch, in formats any program can read. export.json lists every file with its
size and SHA-256, how many rows each table and how many readings each channel has, and what was left out on purpose.

readings/*.csv   one file a channel, every reading. time is UTC, time_ms the same in milliseconds since 1970. value is
                 calibrated, raw_value as the probe said it. Temperatures are Celsius, shares (moisture, air humidity,
                 battery) are 0..1, voltages volt; export.json names each channel's unit. quality is good, suspect or
                 bad, reason says why.
rollups/*.csv    the same summed up by UTC hour and day, from good readings; these reach further back where old readings
                 were removed to save space. They are for reading: an import makes its own from the readings.
senml/*.json     the good readings once more as SenML packs (RFC 8428).
records/*.json   one file a table: one JSON object a line. Names ending in Ms are milliseconds since 1970, 1 is yes and
                 0 is no, payloadStart and jpeg are base64. yards, piles, placements (which channel stood where, from and to),
                 journalEntries (takenBackMs: a wrong press, taken
                 back then), journalPhotos, pileDesigns, limitsVersions, alarms and alarmTransitions, messages and messageAttempts, people,
                 probes, calibrations, auditEntries, and what the program kept in mind of each pile (marks).

photos/*.jpg     photos of the journal, named by the id of their entry; the same bytes as base64 are in
                 records/journalPhotos.json, from where an import takes them.

It holds names and phone numbers: keep it as you would an address book.

Into another Tilthwatch: npm run import -- --from FOLDER
`;
