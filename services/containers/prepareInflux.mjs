/**
 * Makes user and database in an InfluxDB 1.x that is new; where they are there already nothing changes. It runs once, in
 * a container of its own, before the services that forward readings start.
 */
import { readFileSync } from 'node:fs';

const {
  TILTH_SERIES__INFLUX__URL: url,
  TILTH_SERIES__INFLUX__USER: user,
  TILTH_SERIES__INFLUX__DATABASE: database,
  TILTH_SERIES__INFLUX__PASSWORD_FILE: passwordFile,
} = process.env;
if (!url || !user || !database || !passwordFile)
  throw new Error('the settings of series.influx are not in the environment');
const password = readFileSync(passwordFile, 'utf8').trim();
/** @param {string} name */
const quoted = (name) => `"${name.replaceAll('"', '\\"')}"`;

/**
 * @param {string} statement InfluxQL
 * @param {Record<string, string>} headers
 * @returns {Promise<string | null>} what was wrong, without the statement, which may hold the password
 */
async function trouble(statement, headers = {}) {
  const query = new URLSearchParams({ q: statement });
  const answer = await fetch(`${url}/query?${query}`, { method: 'POST', headers });
  const { error, results } = await answer.json();
  return error ?? results?.[0]?.error ?? null;
}

// A server that knows nobody lets the first administrator be made without a password; any other one refuses, rightly.
const made = await trouble(`CREATE USER ${quoted(user)} WITH PASSWORD '${password}' WITH ALL PRIVILEGES`);
const authorization = `Basic ${Buffer.from(`${user}:${password}`).toString('base64')}`;
const wrong = await trouble(`CREATE DATABASE ${quoted(database)}`, { authorization });
if (wrong !== null) {
  console.error(`The database ${database} could not be made at ${url}: ${wrong}`);
  if (made !== null) console.error(`The user ${user} was not made either: ${made}`);
  process.exit(1);
}
console.log(`InfluxDB at ${url} has the database ${database}.`);
