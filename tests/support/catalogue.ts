import { queryOnce } from './admin.ts'

const NOT_OURS = `n.nspname = 'public' AND c.relname <> '_prisma_migrations'`

/** One line of text for each thing that a database's schema consists of. */
const FACTS = `
  SELECT 'column ' || c.relname || '.' || a.attname || ' ' || format_type(a.atttypid, a.atttypmod)
         || CASE WHEN a.attnotnull THEN ' not null' ELSE '' END
         || coalesce(' default ' || pg_get_expr(d.adbin, d.adrelid), '') AS fact
    FROM pg_attribute a
    JOIN pg_class c ON c.oid = a.attrelid AND c.relkind = 'r'
    JOIN pg_namespace n ON n.oid = c.relnamespace
    LEFT JOIN pg_attrdef d ON d.adrelid = a.attrelid AND d.adnum = a.attnum
   WHERE ${NOT_OURS} AND a.attnum > 0 AND NOT a.attisdropped
  UNION ALL
  SELECT CASE k.contype WHEN 'c' THEN 'check ' || k.conname
              ELSE 'constraint ' || k.conname || ' ' || pg_get_constraintdef(k.oid) END
    FROM pg_constraint k
    JOIN pg_class c ON c.oid = k.conrelid
    JOIN pg_namespace n ON n.oid = c.relnamespace
   WHERE ${NOT_OURS} AND k.contype IN ('c', 'p', 'u', 'f', 'x')
  UNION ALL
  SELECT 'index ' || pg_get_indexdef(i.indexrelid)
    FROM pg_index i
    JOIN pg_class c ON c.oid = i.indrelid
    JOIN pg_namespace n ON n.oid = c.relnamespace
   WHERE ${NOT_OURS} AND NOT i.indisprimary
  UNION ALL
  SELECT 'trigger ' || t.tgname
    FROM pg_trigger t
    JOIN pg_class c ON c.oid = t.tgrelid
    JOIN pg_namespace n ON n.oid = c.relnamespace
   WHERE ${NOT_OURS} AND NOT t.tgisinternal
  UNION ALL
  SELECT 'function ' || p.proname
    FROM pg_proc p
    JOIN pg_namespace n ON n.oid = p.pronamespace
   WHERE n.nspname = 'public'
     AND NOT EXISTS (SELECT FROM pg_depend d WHERE d.objid = p.oid AND d.deptype = 'e')
  UNION ALL
  SELECT 'view ' || c.relname || ' ' || pg_get_viewdef(c.oid)
    FROM pg_class c
    JOIN pg_namespace n ON n.oid = c.relnamespace
   WHERE ${NOT_OURS} AND c.relkind IN ('v', 'm')
  UNION ALL
  SELECT 'extension ' || extname FROM pg_extension WHERE extname <> 'plpgsql'`

/** What a database's schema consists of: columns, keys, indexes, checks, triggers and so on. */
export async function schemaFacts(url: string): Promise<Set<string>> {
  const rows = await queryOnce<{ fact: string }>(url, FACTS)
  return new Set(rows.map((row) => row.fact))
}
