/** Sentences of conditions, advice and milestones in German, by their English; digits stand as `#`. */
export const germanPhrases: Readonly<Record<string, string>> = {
  // What it is.
  '# of # probes silent': '# von # Fühlern stumm',
  'FIRE DANGER': 'BRANDGEFAHR',
  'clock of the computer jumped': 'Uhr des Rechners gesprungen',
  'cooled too early': 'zu früh abgekühlt',
  'core getting hot': 'Kern wird heiß',
  'core too hot': 'Kern zu heiß',
  'database away': 'Datenbank weg',
  'disk nearly full': 'Platte fast voll',
  'drying out': 'trocknet aus',
  'has not heated': 'wurde nicht heiß',
  'heading for too hot': 'wird bald zu heiß',
  'heating again': 'wird wieder heiß',
  'hot for too long': 'zu lange heiß',
  'near frost': 'nahe am Frost',
  'no readings can come in': 'es kommen keine Werte an',
  'probably drying out, est.': 'trocknet wohl aus (geschätzt)',
  'probe battery low': 'Fühlerbatterie schwach',
  'probe calibration due': 'Fühler muss geprüft werden',
  'probe clock wrong': 'Fühleruhr falsch',
  'probe sends bad values': 'Fühler misst falsch',
  'probe silent': 'Fühler stumm',
  'probe stuck at one value': 'Fühler hängt auf einem Wert',
  'space for readings nearly full': 'Platz für Werte fast voll',
  'stopped heating early': 'heizt zu früh nicht mehr',
  'texts are not leaving': 'Nachrichten gehen nicht hinaus',
  'too cold for worms': 'zu kalt für Würmer',
  'too warm for worms': 'zu warm für Würmer',
  'too wet, lacks air': 'zu nass, Luft fehlt',
  'two probes disagree': 'zwei Fühler uneins',

  // First actions of conditions.
  'Do NOT open, turn or dig. People away, upwind. Call the fire service.':
    'NICHT öffnen, umsetzen, graben. Leute weg, gegen den Wind. Feuerwehr rufen.',
  'Charge or change its battery within days; log it.': 'Batterie in Tagen laden oder tauschen; notieren.',
  'Check its battery, cable and signal; read the pile by hand meanwhile.':
    'Batterie, Kabel, Funk prüfen; solange von Hand messen.',
  'Check its time and time service; look at readings of that time.':
    'Uhrzeit und Zeitdienst prüfen; Werte aus der Zeit ansehen.',
  'Check it in ice water and against a good thermometer; enter it.':
    'In Eiswasser und gegen ein gutes Thermometer prüfen; eintragen.',
  'Check moisture and that the air channels are open.': 'Feuchte prüfen, und ob die Luftkanäle offen sind.',
  'Check moisture, plan a turn with water; read again within a day.':
    'Feuchte prüfen, Umsetzen mit Wasser planen; morgen nachmessen.',
  'Check moisture; turn it and wet it today, before it is too hot.':
    'Feuchte prüfen; heute umsetzen und nässen, bevor es zu heiß ist.',
  'Check power, network and broker first; read hot piles by hand.':
    'Zuerst Strom, Netz, Broker prüfen; heiße Mieten von Hand messen.',
  'Compare it with a thermometer by hand; restart or swap the probe.':
    'Mit Handthermometer vergleichen; Fühler neu starten oder tauschen.',
  'Cover it with straw, sacks or fleece; feed little until it warms.':
    'Mit Stroh, Säcken, Vlies abdecken; wenig füttern, bis es wärmer wird.',
  'Cover it; curing stops in frost and goes on when it thaws.':
    'Abdecken; im Frost ruht die Reife und geht danach weiter.',
  'Do not turn it. Check blower and air pipes, then wet it slowly.':
    'Nicht umsetzen. Gebläse und Luftrohre prüfen, dann langsam nässen.',
  'Do not turn it. Check moisture and that the air channels are open.':
    'Nicht umsetzen. Feuchte prüfen, und ob die Luftkanäle offen sind.',
  'Do not turn it. Check the air channels are open and wet it slowly.':
    'Nicht umsetzen. Luftkanäle offen? Langsam nässen.',
  'Do not turn it. Check the air channels are open, then wet it.':
    'Nicht umsetzen. Luftkanäle offen? Dann nässen.',
  'Do not turn it. Check the air channels are open, water it slowly.':
    'Nicht umsetzen. Luftkanäle offen? Langsam gießen.',
  'Free space on the disk, or keep raw readings for fewer days.':
    'Platz schaffen, oder Rohwerte weniger Tage behalten.',
  'It is not cured yet: check moisture, keep it low and let air in.':
    'Noch nicht reif: Feuchte prüfen, flach halten, Luft geben.',
  'Make it lower and wet it slowly; read again within a day.':
    'Flacher machen, langsam nässen; morgen nachmessen.',
  'Make it lower or spread it, wet while turning; feed no more.':
    'Flacher machen, beim Umsetzen nässen; nichts mehr zugeben.',
  'No moisture probe: squeeze a handful from inside; if dry, water it.':
    'Kein Feuchtefühler: Handvoll von innen drücken; wenn trocken, gießen.',
  'Open the hot part in small bites, hose charged and ready; wet it.':
    'Heiße Stelle stückweise öffnen, Schlauch unter Druck bereit; nässen.',
  'Read that spot by hand; believe the hotter one until you know.':
    'Dort von Hand messen; bis dahin gilt der heißere.',
  'Read the pile by hand now, then check plug, cable, probe.':
    'Jetzt von Hand messen, dann Stecker, Kabel, Fühler prüfen.',
  'See why InfluxDB takes no readings, or give them more space.':
    'Nachsehen, warum InfluxDB nichts annimmt, oder mehr Platz geben.',
  'Set its clock, or let it send times relative to now; read by hand.':
    'Uhr stellen, oder Zeiten ab jetzt senden lassen; von Hand messen.',
  'Squeeze a handful from inside: dry, or wet and sour? Log it.':
    'Handvoll von innen drücken: trocken, oder nass und sauer? Notieren.',
  'Squeeze a handful: if dry, water slowly. Cover it against cold.':
    'Handvoll drücken: wenn trocken, langsam gießen. Gegen Kälte abdecken.',
  'Squeeze a handful: if dry, wet while turning; if wet, turn in dry stuff.':
    'Handvoll drücken: trocken, beim Umsetzen nässen; nass, Trockenes untermischen.',
  'Squeeze-test it; if dry, water slowly from the top, in several rounds.':
    'Faustprobe; wenn trocken, langsam von oben gießen, in Runden.',
  'Start the MQTT broker, check its network; read hot piles by hand.':
    'MQTT-Broker starten, Netz prüfen; heiße Mieten von Hand messen.',
  'Start the database or its network; readings wait on the local disk.':
    'Datenbank oder Netz starten; Werte warten auf der Platte.',
  'Stop feeding, shade it, open the cover, water lightly with cool water.':
    'Nicht füttern, beschatten, Deckel öffnen, leicht kühl gießen.',
  'Stop watering, cover it against rain, check the air channels are open.':
    'Nicht gießen, vor Regen schützen, Luftkanäle offen?',
  'Stop watering; turn it with dry, coarse stuff; cover it against rain.':
    'Nicht gießen; mit Trockenem, Grobem umsetzen; vor Regen schützen.',
  'Turn it and wet it while turning; read again within a day.': 'Umsetzen, dabei nässen; morgen nachmessen.',
  'Watch the wall; check gateway or modem, its credit and network.':
    'Wandtafel im Blick behalten; SMS-Dienst oder Modem, Guthaben, Netz prüfen.',

  // First actions of advice.
  'Change nothing on a guess; read it again tomorrow.': 'Nichts auf Verdacht ändern; morgen nachmessen.',
  'Check that the blower runs and air comes through.': 'Läuft das Gebläse, kommt Luft durch?',
  'Check the blower, its timer and the air pipes.': 'Gebläse, Zeitschaltuhr und Luftrohre prüfen.',
  'Check the probe: in the core? Compare by hand, log it.':
    'Fühler prüfen: im Kern? Von Hand vergleichen, notieren.',
  'Clear the air channels with a smooth pole.': 'Luftkanäle mit glatter Stange freimachen.',
  'Cover it with #-# cm compost; run the blower less.':
    'Mit #-# cm Kompost abdecken; Gebläse weniger laufen lassen.',
  'Do not turn it. Check blower and pipes; wet it slowly.':
    'Nicht umsetzen. Gebläse und Rohre prüfen; langsam nässen.',
  'Do not turn it. Check that air can pass.': 'Nicht umsetzen. Prüfen, ob Luft durchkommt.',
  'Do not turn it. See that air channels are open; wet it.': 'Nicht umsetzen. Luftkanäle offen? Nässen.',
  'Dry looks finished too: water slowly, read for a week.':
    'Auch Trockenes sieht fertig aus: langsam gießen, eine Woche messen.',
  'Evidence says wet: squeeze-test a second place first.': 'Es scheint nass: erst eine zweite Faustprobe.',
  'Hose ready, people off it; ask the fire service.': 'Schlauch bereit, niemand darauf; Feuerwehr fragen.',
  'Is it covered just now? Log covered or uncovered.': 'Gerade abgedeckt? Notieren: abgedeckt oder offen.',
  'Keep people off it; ask the fire service before opening.':
    'Niemand darauf; vor dem Öffnen die Feuerwehr fragen.',
  'Keep rain off; let air pass at the sides.': 'Regen abhalten; an den Seiten Luft lassen.',
  'Keep weight off it; use more coarse chips next time.': 'Nicht belasten; nächstes Mal mehr Häcksel.',
  'Lead the water away from its base.': 'Wasser vom Fuß wegleiten.',
  'Leave it and keep it moist: life comes back from outside.':
    'Lassen und feucht halten: von außen kommt Leben zurück.',
  'Leave it open to air, stand upwind; read in # days.':
    'Offen lassen, gegen den Wind stehen; in # Tagen messen.',
  'Leave it shut until milder weather; it starts again.': 'Zu lassen, bis es milder ist; es fängt wieder an.',
  'Leave it shut; read it again tomorrow.': 'Zu lassen; morgen nachmessen.',
  'Leave it to cure; keep it moist. Look and smell.': 'Reifen lassen; feucht halten. Ansehen und riechen.',
  'Leave it, keep it moist; make the next mix richer.': 'Lassen, feucht halten; nächste Mischung reicher.',
  "Look at a trowelful from arm's length inside; log it.":
    'Eine Kelle aus einer Armlänge Tiefe ansehen; notieren.',
  'Look at its base: does water stand there? Log it.': 'Steht am Fuß Wasser? Notieren.',
  'Look: are the air channels or pipes open? Log it.': 'Luftkanäle oder Rohre offen? Notieren.',
  'Make it lower and wet it slowly; read again in a day.':
    'Flacher machen, langsam nässen; morgen nachmessen.',
  'No heat is due at this stage: leave it and keep it moist.':
    'Jetzt kommt keine Hitze mehr: lassen und feucht halten.',
  'Open the hot part in small bites, charged hose; wet it.':
    'Heiße Stelle stückweise öffnen, Schlauch unter Druck; nässen.',
  'Put a second probe in the core; compare after an hour.':
    'Zweiten Fühler in den Kern; nach 1 h vergleichen.',
  'Put the moisture right first; read again in # days.': 'Erst die Feuchte richten; in # Tagen nachmessen.',
  'Read it again in a few hours; do not cover it tightly.':
    'In ein paar Stunden nachmessen; nicht dicht abdecken.',
  'Read the core with a hand thermometer; log it.': 'Kern mit Handthermometer messen; notieren.',
  'Read the core with a long hand thermometer first; log it.':
    'Zuerst den Kern mit langem Handthermometer messen; notieren.',
  'Read the edge too, a hand deep; log it.': 'Auch den Rand messen, handtief; notieren.',
  'Run the blower longer; look for water in the pipes.':
    'Gebläse länger laufen lassen; Wasser in den Rohren?',
  'Smell it from a step back: earthy, sour, ammonia? Log it.':
    'Aus einem Schritt riechen: erdig, sauer, Ammoniak? Notieren.',
  'Squeeze a handful beside the moisture probe; log it # to #.':
    'Handvoll neben dem Feuchtefühler drücken; # bis # notieren.',
  'Squeeze a handful from inside first; log it # to #.':
    'Zuerst Handvoll von innen drücken; # bis # notieren.',
  'Squeeze a handful from inside; log it # (dust) to # (drips).':
    'Handvoll von innen drücken; # (Staub) bis # (tropft) notieren.',
  'Squeeze it, smell it, look inside; log what you find.': 'Drücken, riechen, hineinsehen; notieren.',
  'Squeeze-test it; if dry, water slowly, in rounds.': 'Faustprobe; wenn trocken, langsam gießen, in Runden.',
  'Stop feeding and watering; lay dry bedding on top.':
    'Nicht füttern, nicht gießen; trockene Einstreu darauf.',
  'Stop watering until its base no longer seeps.': 'Nicht gießen, bis unten nichts mehr austritt.',
  'Stop watering, keep rain off and let it drain.': 'Nicht gießen, Regen abhalten, ablaufen lassen.',
  'Stop watering, keep rain off, clear the air channels.':
    'Nicht gießen, Regen abhalten, Luftkanäle freimachen.',
  'Stop watering, keep rain off, drain the base.': 'Nicht gießen, Regen abhalten, Fuß entwässern.',
  'Stop watering, keep rain off; read again in a day.': 'Nicht gießen, Regen abhalten; morgen nachmessen.',
  'Stop watering; clear the air channels.': 'Nicht gießen; Luftkanäle freimachen.',
  'Take fresh feed off, spread it thin; leave a cool side.':
    'Frisches Futter ab, dünn verteilen; kühle Seite lassen.',
  'Take the tight cover off; stand back from the steam.': 'Dichte Abdeckung ab; Abstand vom Dampf.',
  'Turn it and mix in coarse chips; read again in a day.':
    'Umsetzen, Häcksel untermischen; morgen nachmessen.',
  'Turn it and mix in coarse dry chips.': 'Umsetzen, trockenen Häcksel untermischen.',
  'Turn it and mix in coarse dry chips; stop watering.':
    'Umsetzen, trockenen Häcksel untermischen; nicht gießen.',
  'Turn it and mix in rich material: grass or manure.': 'Umsetzen, Reiches untermischen: Gras oder Mist.',
  'Turn it and water while turning.': 'Umsetzen, dabei gießen.',
  'Turn it and water while turning; read again in # days.': 'Umsetzen, dabei gießen; in # Tagen nachmessen.',
  'Turn it and wet it while turning; read again in a day.': 'Umsetzen, dabei nässen; morgen nachmessen.',
  'Turn it once so live outside material reaches the core.':
    'Einmal umsetzen, damit Lebendes in den Kern kommt.',
  'Turn it once, no water; see in # h if it reheats.':
    'Einmal trocken umsetzen; in # h sehen, ob es heiß wird.',
  'Turn it to loosen it; mix in coarse chips.': 'Umsetzen, lockern; Häcksel untermischen.',
  'Turn it, mix in dry chips or straw; stand upwind.':
    'Umsetzen, Häcksel oder Stroh dazu; gegen den Wind stehen.',
  'Water it slowly, in rounds, until the base just seeps.':
    'Langsam gießen, in Runden, bis unten etwas austritt.',
  'Water it slowly; see in # h if it reheats.': 'Langsam gießen; in # h sehen, ob es heiß wird.',
  'Water very slowly in many small rounds, or by drip.':
    'Sehr langsam gießen, viele kleine Runden, oder tropfen.',
  'Wet it slowly from the side; keep people off it.': 'Langsam von der Seite nässen; niemand darauf.',
  'Wet looks finished too: stop watering, read for a week.':
    'Auch Nasses sieht fertig aus: nicht gießen, eine Woche messen.',
  'Wrap it in straw or leaves, with a cover that breathes.':
    'In Stroh oder Laub packen, mit atmender Abdeckung.',

  // Milestones.
  'sanitisation record complete': 'Hygienenachweis vollständig',
  'Print it from the pile page; it shows heat and time, not a test of the compost.':
    'Auf der Seite der Miete drucken; er zeigt Hitze und Zeit, keine Prüfung des Komposts.',
  'core record complete, core only': 'Kernnachweis vollständig, nur Kern',
  'The core held its heat; nothing shows that the outside did. Treat that as raw.':
    'Der Kern hielt die Hitze; vom Rand zeigt es nichts. Ihn als roh behandeln.',
  'time to pull the air channels': 'Zeit, die Luftkanäle zu ziehen',
  'Pull one gently: if the hole stands open, pull the rest; mind steam. Log it.':
    'Einen sacht ziehen: steht das Loch, alle ziehen; Vorsicht Dampf. Notieren.',
  'cool enough for worms': 'kühl genug für Würmer',
  'Check it is moist, add them on top, log it; then keep it wet.':
    'Feucht? Oben auflegen, notieren; danach nass halten.',
  'ready for curing': 'bereit zum Reifen',
  'It no longer heats up again: build it into a curing heap, keep it moist.':
    'Es wird nicht mehr heiß: zur Reifemiete aufsetzen, feucht halten.',
  'likely finished': 'wohl fertig',
  'Look and smell: dark, crumbly, earthy. Have it tested before selling.':
    'Ansehen, riechen: dunkel, krümelig, erdig. Vor Verkauf prüfen lassen.',
};
