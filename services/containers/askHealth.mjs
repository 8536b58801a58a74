/**
 * The health check of a container: asks the program beside it whether it lives and ends with 0 or 1. It reads no
 * configuration, so that it stays cheap: the ports are set in the environment or are the usual ones.
 */
import { request as http } from 'node:http';
import { request as https } from 'node:https';

const { TILTH_HTTP__PORT: screensPort = '8477', TILTH_HEALTH__PORT: healthPort = '8478' } = process.env;

/**
 * @param {typeof http} request
 * @param {string} port
 * @returns {Promise<boolean>} whether it answered that it lives
 */
function lives(request, port) {
  // The certificate names the yard's public name, never this loopback address: it is not checked here.
  const options = { host: '127.0.0.1', port, path: '/healthz', timeout: 2000, rejectUnauthorized: false };
  return new Promise((resolve) => {
    const call = request(options, (answer) => resolve(answer.resume().statusCode === 200));
    call.on('timeout', () => call.destroy());
    call.on('error', () => resolve(false));
    call.end();
  });
}

// With screens it answers at their port, plain or with TLS; a service without screens at the other one.
const tries = [lives(http, screensPort), lives(https, screensPort), lives(http, healthPort)];
process.exit((await Promise.all(tries)).includes(true) ? 0 : 1);
