update piles set build = '{"volumeM3":1.2,"leastSideMetres":1.1,"wetKg":700,"carbonToNitrogen":30,"moistureFraction":0.6,"freeAirSpaceFraction":0.4}';
