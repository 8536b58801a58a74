import {
  type CreateTableNode,
  type DataTypeNode,
  type SelectModifierNode,
  SqliteQueryCompiler,
} from 'kysely';

/** SQLite's name for each column type the migrations use. */
const columnTypes: Readonly<Record<string, string>> = {
  bigserial: 'integer',
  bigint: 'integer',
  'double precision': 'real',
  bytea: 'blob',
  'varchar(255)': 'text',
};

/** Everything in which SQLite's SQL differs from the PostgreSQL the stores and migrations are written for. */
export class NodeSqliteCompiler extends SqliteQueryCompiler {
  protected override visitDataType(node: DataTypeNode): void {
    this.append(columnTypes[node.dataType] ?? node.dataType);
  }

  /** Strict tables refuse a wrong type as PostgreSQL does, e.g. half a millisecond in a time. */
  protected override visitCreateTable(node: CreateTableNode): void {
    super.visitCreateTable(node);
    this.append(' strict');
  }

  /** Row locks are left out: a writing transaction has the whole file to itself. */
  protected override visitSelectModifier(node: SelectModifierNode): void {
    if (node.modifier === undefined) super.visitSelectModifier(node);
  }
}
