// A paired tablet, and what it hands in without a session.
import assert from 'node:assert/strict';
import { call } from './client.mjs';
import { freshId } from './submissions.mjs';
import { demo } from './transport.mjs';

/** The cookie of a tablet that was paired just now. */
export async function pairedCookie() {
  const { json: { code } } = await call('POST', '/api/v1/devices/pairing',
    { as: 'manager', body: { name: freshId('Tablet ') } });
  const answer = await call('POST', '/api/v1/devices', { body: { code } });
  assert.equal(answer.status, 201, answer.text);
  return answer.headers['set-cookie'][0].split(';')[0];
}

/** Records in the name of a person, without the PIN; the receipt. */
export async function recordedWithoutPin(cookie, person, body) {
  const { status, json, text } = await call('POST', '/api/v1/entries', {
    body: { ...body, person: person.id, claimed: true },
    headers: { Cookie: cookie, Origin: new URL(demo.address).origin } });
  assert.equal(status, 201, text);
  return json;
}
