/** Cautions of conditions, and what measured values are called, in German by their English; digits stand as `#`. */
export const germanCautions: Readonly<Record<string, string>> = {
  'A dry heap that is wetted wakes up. Gloves and mask; wash hands.':
    'Ein trockener Haufen, der nass wird, lebt auf. Handschuhe und Maske; Hände waschen.',
  'A dry pile in hot weather can catch fire.': 'Eine trockene Miete kann bei Hitze Feuer fangen.',
  'A falling reading after a very hot one is not safety: a burnt-out hollow or a dead probe reads cool.':
    'Fällt der Wert nach großer Hitze, ist das keine Sicherheit: ein ausgebrannter Hohlraum oder ein toter Fühler zeigt kühl.',
  'A full disk takes no readings and judges nothing.':
    'Eine volle Platte nimmt keine Werte an und beurteilt nichts.',
  'A sour smell means it lacks air. Gloves and mask; wash hands.':
    'Saurer Geruch heißt: Luft fehlt. Handschuhe und Maske; Hände waschen.',
  'Alarms go on from the local store as long as its disk has room.':
    'Alarme laufen aus dem örtlichen Speicher weiter, solange dessen Platte Platz hat.',
  'Cold is no proof that it is done.': 'Kalt ist kein Beweis, dass er fertig ist.',
  'Do not add nitrogen before the moisture is known.':
    'Keinen Stickstoff zugeben, bevor die Feuchte bekannt ist.',
  'Do not cover it tightly and do not add rich feed.':
    'Nicht dicht abdecken und nichts Stickstoffreiches zugeben.',
  'Dry dust carries germs: damp it first, wear a mask.':
    'Trockener Staub trägt Keime: erst anfeuchten, Maske tragen.',
  'From 35 C worms die. Give them a cool corner to move to.':
    'Ab 35 C sterben Würmer. Eine kühle Ecke lassen, in die sie ausweichen können.',
  'Gloves and mask; wash hands.': 'Handschuhe und Maske; Hände waschen.',
  'Its readings are not used while its clock is wrong.':
    'Seine Werte zählen nicht, solange seine Uhr falsch geht.',
  'Long heat kills the fungi and burns up nitrogen.': 'Lange Hitze tötet die Pilze und verbrennt Stickstoff.',
  'Metal stems above 60 C burn.': 'Metallschäfte über 60 C verbrennen die Haut.',
  'Neither is used for the pile until one is put right.':
    'Keiner von beiden zählt für die Miete, bis einer stimmt.',
  'Never alone, and never climb on the pile.': 'Nie allein, und nie auf die Miete steigen.',
  'No readings does not mean the pile is cool.': 'Keine Werte heißt nicht, dass die Miete kühl ist.',
  'No readings does not mean the piles are cool.': 'Keine Werte heißt nicht, dass die Mieten kühl sind.',
  'Nothing is removed that InfluxDB has not got.': 'Es wird nichts gelöscht, was InfluxDB nicht hat.',
  'Readings taken meanwhile may stand at the wrong time.':
    'Werte aus dieser Zeit stehen vielleicht zur falschen Zeit.',
  'Smoke, glow or ash: treat it as a fire, call the emergency number.':
    'Rauch, Glut oder Asche: wie ein Feuer behandeln, Notruf wählen.',
  'Stand back from steam; long sleeves, gloves, no face over an opening.':
    'Abstand vom Dampf; lange Ärmel, Handschuhe, kein Gesicht über einer Öffnung.',
  'Switch forced air off. Do not drench it alone: water can flash to steam. Follow your local fire service.':
    'Gebläse ausschalten. Nicht allein fluten: Wasser kann schlagartig verdampfen. Der örtlichen Feuerwehr folgen.',
  'The last good reading was real: do not take the pile for cool.':
    'Der letzte gute Wert stimmte: die Miete nicht für kühl halten.',
  'Until texts leave again nobody is told: let somebody watch the screen.':
    'Bis wieder Nachrichten hinausgehen, erfährt niemand etwas: jemand soll den Bildschirm beobachten.',
  'Until the record is complete treat it as raw: gloves, mask, wash hands.':
    'Bis der Nachweis vollständig ist, gilt er als roh: Handschuhe, Maske, Hände waschen.',
  'Until then do not trust this probe, warm or cool.':
    'Bis dahin diesem Fühler nicht trauen, ob warm oder kühl.',
  'Until then it can still raise a heat alarm, but counts for nothing else.':
    'Bis dahin kann er noch Hitzealarm geben, zählt sonst aber nicht.',
  'When it dies the pile is not watched: no readings does not mean cool.':
    'Ist sie leer, wird die Miete nicht überwacht: keine Werte heißt nicht kühl.',
  'Worms survive down to about 0 C only in the middle of a deep bed.':
    'Bis etwa 0 C überleben Würmer nur mitten in einem tiefen Beet.',
  'Write the watering in the journal, with litres, so that the estimate follows.':
    'Das Gießen mit Litern ins Tagebuch schreiben, damit die Schätzung folgt.',

  // What a measured value is called.
  age: 'Alter',
  air: 'Luft',
  battery: 'Batterie',
  budget: 'erlaubt',
  core: 'Kern',
  database: 'Datenbank',
  free: 'frei',
  limit: 'Grenze',
  missing: 'fehlt',
  moisture: 'Feuchte',
  silent: 'stumm',
  waiting: 'wartet',
  'above # C since the record': 'über # C seit dem Nachweis',
  'as it slows down': 'wenn es langsamer wird',
  'at the earliest': 'frühestens',
  'at the latest': 'spätestens',
  'ceiling in, at this pace': 'Obergrenze in, bei diesem Tempo',
  'clock ahead by': 'Uhr geht vor um',
  'clock moved by': 'Uhr verstellt um',
  'connection to the MQTT broker': 'Verbindung zum MQTT-Broker',
  'core trend, # h': 'Verlauf im Kern, # h',
  'hottest place, trend of # h': 'Verlauf an der heißesten Stelle, # h',
  'core, read by hand': 'Kern, von Hand gemessen',
  'dry in, at this pace': 'trocken in, bei diesem Tempo',
  'estimated moisture': 'geschätzte Feuchte',
  'highest core so far': 'heißester Kern bisher',
  'highest wanted': 'höchstens gewünscht',
  'lowest wanted': 'mindestens gewünscht',
  'moisture, at most': 'Feuchte, höchstens',
  'moisture, estimated': 'Feuchte, geschätzt',
  'oldest waits': 'älteste wartet',
  'placed probes': 'gesteckte Fühler',
  'read by hand, ago': 'von Hand gemessen, vor',
  'readily degradable material left, estimated': 'leicht Abbaubares übrig, geschätzt',
  'sanitisation record': 'Hygienenachweis',
  'silent for': 'stumm seit',
  'silent probes': 'stumme Fühler',
  'space for readings used': 'Platz für Werte belegt',
  'usual gap': 'üblicher Abstand',
};
