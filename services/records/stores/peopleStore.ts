import { languages } from '../../../shared/messages/words/languageNames.ts';
import type { Person } from '../../../shared/yard/people.ts';
import { newId } from '../newId.ts';
import type { PeopleStore } from '../port.ts';
import { found, isEmptyChange, refusing } from '../refusals.ts';
import type { Database, PersonRow } from '../schema.ts';

export function peopleStore(db: Database): PeopleStore {
  const people = db.selectFrom('people').selectAll();
  const read = (id: string) => people.where('id', '=', id).executeTakeFirst();
  return {
    list: async (yardId) =>
      (await people.where('yardId', '=', yardId).orderBy('name').orderBy('id').execute()).map(fromRow),
    async get(id) {
      const row = await read(id);
      return row ? fromRow(row) : null;
    },
    async byLogin(login) {
      const row = await people.where('login', '=', login.toLowerCase()).executeTakeFirst();
      return row ? fromRow(row) : null;
    },
    async byPhone(phone) {
      const rows = people.where('phone', '=', phone).where('disabled', '=', 0);
      return (await rows.orderBy('id').execute()).map(fromRow);
    },
    async create(person, passwordHash) {
      const row = toRow({ language: languages[0], ...person, id: newId() }, passwordHash);
      const insert = db.insertInto('people').values(row).returningAll().executeTakeFirstOrThrow();
      return fromRow(await refusing(insert, { unique: takenLogin(person.login), reference: 'yardId' }));
    },
    async update(id, change) {
      const columns = changedColumns(change);
      if (isEmptyChange(columns)) return fromRow(found(await read(id), 'personId', id));
      const update = db.updateTable('people').set(columns).where('id', '=', id).returningAll();
      const row = await refusing(update.executeTakeFirst(), { unique: takenLogin(change.login ?? '') });
      return fromRow(found(row, 'personId', id));
    },
    passwordHash: async (id) => found(await read(id), 'personId', id).passwordHash,
    async setPassword(id, passwordHash) {
      const update = db.updateTable('people').set({ passwordHash }).where('id', '=', id).returning('id');
      found(await update.executeTakeFirst(), 'personId', id);
    },
    async count() {
      const { number } = await db
        .selectFrom('people')
        .select((person) => person.fn.countAll<number>().as('number'))
        .executeTakeFirstOrThrow();
      return number;
    },
  };
}

const takenLogin = (login: string) => ['login', `the sign-in name ${login} is taken`] as const;

function toRow(person: Person, passwordHash: string | null): PersonRow {
  return {
    id: person.id,
    yardId: person.yardId,
    login: person.login.toLowerCase(),
    name: person.name,
    role: person.role,
    phone: person.phone,
    receivesTexts: person.receivesTexts ? 1 : 0,
    textsFrom: person.textsFrom,
    disabled: person.disabled ? 1 : 0,
    language: person.language,
    passwordHash,
  };
}

function changedColumns({ receivesTexts, disabled, login, ...same }: Parameters<PeopleStore['update']>[1]) {
  return {
    ...same,
    ...(login === undefined ? {} : { login: login.toLowerCase() }),
    ...(receivesTexts === undefined ? {} : { receivesTexts: receivesTexts ? 1 : 0 }),
    ...(disabled === undefined ? {} : { disabled: disabled ? 1 : 0 }),
  };
}

function fromRow({ passwordHash: _, receivesTexts, disabled, ...person }: PersonRow): Person {
  return { ...person, receivesTexts: receivesTexts === 1, disabled: disabled === 1 };
}
