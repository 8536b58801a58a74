update sessions set confirmed_ms = 3;
