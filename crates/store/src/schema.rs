//! The tables, and how those of an older store become those of now.

use crate::StoreError;
use crate::database::{Database, Statements};
use latchline_words::refusals::StoreFault;

/// The version of the tables that this program reads and writes.
pub const SCHEMA_VERSION: i64 = MIGRATIONS.len() as i64;

/// What makes version n + 1 of version n, one list of statements each. Those that were shipped are never changed.
const MIGRATIONS: &[&[&str]] = &[
    &[
        "create table site (
        id bigint not null primary key,
        name text not null unique,
        file text not null,
        head bigint not null,
        last bigint not null)",
        "create table content (
        hash text not null primary key,
        base text references content (hash),
        depth bigint not null,
        body text not null)",
        "create table revision (
        site bigint not null references site (id),
        number bigint not null,
        parent bigint,
        kind text not null,
        takes_back bigint,
        hash text not null,
        engine text not null,
        at_ms bigint not null,
        by_whom text not null,
        client text not null,
        note text not null,
        primary key (site, number))",
        "create index revision_of_client on revision (site, client, number)",
        "create table revision_text (
        site bigint not null,
        number bigint not null,
        place bigint not null,
        path text not null,
        hash text not null references content (hash),
        primary key (site, number, place),
        foreign key (site, number) references revision (site, number))",
        "create table submission (
        site bigint not null references site (id),
        id text not null,
        digest text not null,
        outcome text not null,
        against bigint not null,
        target bigint,
        at_ms bigint not null,
        primary key (site, id))",
        "create table named (
        site bigint not null,
        name text not null,
        number bigint not null,
        at_ms bigint not null,
        by_whom text not null,
        primary key (site, name),
        foreign key (site, number) references revision (site, number))",
        "create table live (
        site bigint not null primary key references site (id),
        exported bigint,
        aside bigint)",
        "create table answer (
        id text not null primary key,
        number bigint not null unique,
        site bigint references site (id),
        at_ms bigint not null,
        by_whom text not null,
        engine text not null,
        asked_by text not null,
        question text not null,
        answer text not null,
        assumptions text not null,
        catalogue text not null,
        sought text not null)",
    ],
    &[
        // Answers can be deleted; the number of one that was is never given again.
        "create table answer_numbers (last bigint not null)",
        "insert into answer_numbers (last) select coalesce(max(number), 0) from answer",
    ],
];

/// The version of a store within a transaction; 0 if there is nothing yet.
///
/// # Errors
/// If it cannot be read.
pub(crate) fn version(statements: &mut dyn Statements) -> Result<i64, StoreError> {
    Ok(statements.row("select version from store_schema", &[])?.map_or(0, |row| row.integer(0)))
}

/// Refuses a store that is not of the version of this program.
pub(crate) fn check_version(statements: &mut dyn Statements, place: &str) -> Result<(), StoreError> {
    match version(statements)? {
        SCHEMA_VERSION => Ok(()),
        found if found > SCHEMA_VERSION => {
            Err(StoreError::Newer { place: place.to_string(), found, known: SCHEMA_VERSION })
        }
        found => Err(StoreError::Failed {
            place: place.to_string(),
            detail: StoreFault::OldTables { found: &found.to_string(), known: &SCHEMA_VERSION.to_string() }
                .both(),
        }),
    }
}

/// Brings the tables to the version of this program, all of it or nothing.
///
/// # Errors
/// If the store is of a newer program, or cannot be written.
pub fn migrate(database: &dyn Database) -> Result<(), StoreError> {
    migrate_with(database, MIGRATIONS)
}

fn migrate_with(database: &dyn Database, migrations: &[&[&str]]) -> Result<(), StoreError> {
    let known = migrations.len() as i64;
    database.write(&mut |statements| {
        statements.run("create table if not exists store_schema (version bigint not null)", &[])?;
        let found = version(statements)?;
        if found > known {
            return Err(StoreError::Newer { place: database.place().to_string(), found, known });
        }
        for step in &migrations[found as usize..] {
            for sql in *step {
                statements.run(sql, &[])?;
            }
        }
        if found < known {
            statements.run("delete from store_schema", &[])?;
            statements.run("insert into store_schema (version) values ($1)", &[known.into()])?;
        }
        Ok(())
    })
}
