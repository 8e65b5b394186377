//! A store in one file, by SQLite.
//!
//! A write-ahead log, synced at every commit (`synchronous = FULL`): what was acknowledged survives the end of the process, of the system and
//! of the power, as far as the medium keeps what it says it has kept. One connection writes, others read beside it.

use crate::StoreError;
use crate::database::{Database, Row, Statements, Value, Work};
use latchline_finding::Both;
use latchline_words::refusals::StoreFault;
use rusqlite::backup::{Backup, StepResult};
use rusqlite::types::{ToSqlOutput, ValueRef};
use rusqlite::{Connection, ErrorCode, OpenFlags};
use std::path::{Path, PathBuf};
use std::sync::{Mutex, MutexGuard, PoisonError};
use std::time::Duration;

/// Marks the file as ours in its header ("Ltch").
const APPLICATION_ID: i64 = 0x4c74_6368;
/// How long another process may hold the file.
const BUSY: Duration = Duration::from_secs(5);
/// Connections that read which are kept open.
const MOST_READERS: usize = 4;
/// Pages copied at once in a backup.
const PAGES_AT_ONCE: i32 = 256;

/// A store in one file.
#[derive(Debug)]
pub struct Sqlite {
    path: PathBuf,
    place: String,
    vfs: Option<String>,
    /// Closed before the writer, which can take the log into the file when it is the last.
    readers: Mutex<Vec<Connection>>,
    writer: Mutex<Connection>,
}

/// Whether a file may be made or changed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Access {
    /// Made if it is not there.
    Create,
    /// It must be there, and is only read.
    Read,
}

impl Sqlite {
    /// Opens the file, or makes it; its folder must be there.
    ///
    /// # Errors
    /// If it is no store, or cannot be opened for writing.
    pub fn open(path: &Path) -> Result<Self, StoreError> {
        Self::open_on(path, None)
    }

    /// The same on another layer between SQLite and the files, by the name under which it is registered.
    ///
    /// # Errors
    /// As [`Sqlite::open`].
    pub fn open_on(path: &Path, vfs: Option<&str>) -> Result<Self, StoreError> {
        let place = StoreError::place(path);
        let writer = connect(path, vfs, Access::Create).map_err(|error| told(&place, &error))?;
        check_mark(&writer, &place)?;
        set_up(&writer).map_err(|error| told(&place, &error))?;
        Ok(Sqlite {
            path: path.to_path_buf(),
            place,
            vfs: vfs.map(String::from),
            writer: Mutex::new(writer),
            readers: Mutex::default(),
        })
    }

    /// Opens a file that must be there, only to read it. Others may write it at the same time.
    ///
    /// # Errors
    /// If it is not there, or no store.
    pub fn open_to_read(path: &Path) -> Result<Self, StoreError> {
        let place = StoreError::place(path);
        let writer = connect(path, None, Access::Read).map_err(|error| match error.sqlite_error_code() {
            Some(ErrorCode::CannotOpen) => StoreError::NoStore(place.clone()),
            _ => told(&place, &error),
        })?;
        check_mark(&writer, &place)?;
        let reader = Mutex::new(writer);
        Ok(Sqlite { path: path.to_path_buf(), place, vfs: None, writer: reader, readers: Mutex::default() })
    }

    /// Copies all of it into a new file, as it is at one moment; it may be read and written meanwhile. The copy is whole and synced when this
    /// returns. It is one file: nothing belongs beside it.
    ///
    /// # Errors
    /// If the file cannot be written, or what was copied is damaged. What is at `to` is then to be removed.
    pub fn copy_to(&self, to: &Path) -> Result<(), StoreError> {
        let place = StoreError::place(to);
        let told_of_copy = |error: &rusqlite::Error| told(&place, error);
        let source = self.reader()?;
        let mut copy = connect(to, None, Access::Create).map_err(|error| told_of_copy(&error))?;
        copy.pragma_update(None, "synchronous", "full").map_err(|error| told_of_copy(&error))?;
        let backup = Backup::new(&source, &mut copy).map_err(|error| told_of_copy(&error))?;
        backup
            .run_to_completion(PAGES_AT_ONCE, Duration::ZERO, None)
            .map_err(|error| told_of_copy(&error))?;
        drop(backup);
        self.keep_reader(source);
        // Without a log beside it, so that it is whole as one file on any medium.
        copy.pragma_update(None, "journal_mode", "delete").map_err(|error| told_of_copy(&error))?;
        check_whole(&copy, &place)?;
        copy.close().map_err(|(_, error)| told_of_copy(&error))
    }

    /// Becomes a copy of another store, all of it or nothing: what was here is gone then.
    ///
    /// # Errors
    /// If the other cannot be read, or this cannot be written.
    pub fn become_as(&self, other: &Sqlite) -> Result<(), StoreError> {
        let told = |error: &rusqlite::Error| told(&self.place, error);
        let source = other.reader()?;
        let mut writer = self.writer();
        {
            let backup = Backup::new(&source, &mut writer).map_err(|error| told(&error))?;
            // In one step, which is one transaction.
            match backup.step(-1).map_err(|error| told(&error))? {
                StepResult::Done => {}
                _ => return Err(StoreError::Busy(self.place.clone())),
            }
        }
        other.keep_reader(source);
        set_up(&writer).map_err(|error| told(&error))
    }

    /// Reads every page and holds tables, indexes and references against each other.
    ///
    /// # Errors
    /// If something does not fit.
    pub fn check_whole(&self) -> Result<(), StoreError> {
        check_whole(&self.writer(), &self.place)
    }

    fn writer(&self) -> MutexGuard<'_, Connection> {
        // A panic within a transaction rolled it back.
        self.writer.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn reader(&self) -> Result<Connection, StoreError> {
        let kept = self.readers.lock().unwrap_or_else(PoisonError::into_inner).pop();
        match kept {
            Some(connection) => Ok(connection),
            None => {
                let vfs = self.vfs.as_deref();
                connect(&self.path, vfs, Access::Read).map_err(|error| told(&self.place, &error))
            }
        }
    }

    fn keep_reader(&self, connection: Connection) {
        let mut readers = self.readers.lock().unwrap_or_else(PoisonError::into_inner);
        if readers.len() < MOST_READERS {
            readers.push(connection);
        }
    }
}

impl Database for Sqlite {
    fn place(&self) -> &str {
        &self.place
    }

    fn read(&self, work: &mut Work<'_>) -> Result<(), StoreError> {
        let connection = self.reader()?;
        let done = within(&connection, &self.place, "begin", work);
        self.keep_reader(connection);
        done
    }

    fn write(&self, work: &mut Work<'_>) -> Result<(), StoreError> {
        within(&self.writer(), &self.place, "begin immediate", work)
    }
}

fn connect(path: &Path, vfs: Option<&str>, access: Access) -> rusqlite::Result<Connection> {
    let flags = OpenFlags::SQLITE_OPEN_NO_MUTEX
        | match access {
            Access::Create => OpenFlags::SQLITE_OPEN_READ_WRITE | OpenFlags::SQLITE_OPEN_CREATE,
            Access::Read => OpenFlags::SQLITE_OPEN_READ_ONLY,
        };
    let connection = match vfs {
        Some(vfs) => Connection::open_with_flags_and_vfs(path, flags, vfs)?,
        None => Connection::open_with_flags(path, flags)?,
    };
    connection.busy_timeout(BUSY)?;
    connection.pragma_update(None, "foreign_keys", "on")?;
    connection.pragma_update(None, "trusted_schema", "off")?;
    connection.pragma_update(None, "cell_size_check", "on")?;
    Ok(connection)
}

/// What stays in the file, and how it is synced.
fn set_up(connection: &Connection) -> rusqlite::Result<()> {
    // Written once: opening a store changes nothing in it.
    let mark: i64 = connection.query_row("pragma application_id", [], |row| row.get(0))?;
    if mark != APPLICATION_ID {
        connection.pragma_update(None, "application_id", APPLICATION_ID)?;
    }
    connection.pragma_update(None, "journal_mode", "wal")?;
    connection.pragma_update(None, "synchronous", "full")?;
    connection.pragma_update(None, "journal_size_limit", 16_000_000)
}

/// Refuses a file that another program made.
fn check_mark(connection: &Connection, place: &str) -> Result<(), StoreError> {
    let number = |sql: &str| connection.query_row(sql, [], |row| row.get::<_, i64>(0));
    let mark = number("pragma application_id").map_err(|error| told(place, &error))?;
    let tables = number("select count(*) from sqlite_schema").map_err(|error| told(place, &error))?;
    if mark == APPLICATION_ID || (mark == 0 && tables == 0) {
        Ok(())
    } else {
        Err(StoreError::NotAStore(place.to_string()))
    }
}

fn check_whole(connection: &Connection, place: &str) -> Result<(), StoreError> {
    let damaged = |detail: Both| StoreError::Damaged { place: place.to_string(), detail };
    let found: String = connection
        .query_row("pragma integrity_check(1)", [], |row| row.get(0))
        .map_err(|error| told(place, &error))?;
    if found != "ok" {
        return Err(damaged(Both::same(found)));
    }
    let mut dangling = connection.prepare("pragma foreign_key_check").map_err(|error| told(place, &error))?;
    if dangling.exists([]).map_err(|error| told(place, &error))? {
        return Err(damaged(StoreFault::Dangling.both()));
    }
    Ok(())
}

fn within(connection: &Connection, place: &str, begin: &str, work: &mut Work<'_>) -> Result<(), StoreError> {
    let told = |error: rusqlite::Error| told(place, &error);
    connection.execute_batch(begin).map_err(told)?;
    // Taken back on an error, and if the work panics.
    let open = Transaction { connection, is_done: false };
    work(&mut Running { connection, place })?;
    open.commit().map_err(told)
}

/// Rolled back when dropped, unless it was committed.
struct Transaction<'c> {
    connection: &'c Connection,
    is_done: bool,
}

impl Transaction<'_> {
    fn commit(mut self) -> rusqlite::Result<()> {
        self.connection.execute_batch("commit")?;
        self.is_done = true;
        Ok(())
    }
}

impl Drop for Transaction<'_> {
    fn drop(&mut self) {
        // Some errors have rolled it back already.
        if !self.is_done && !self.connection.is_autocommit() {
            let _ = self.connection.execute_batch("rollback");
        }
    }
}

struct Running<'c> {
    connection: &'c Connection,
    place: &'c str,
}

impl Running<'_> {
    fn prepared<T>(
        &self,
        sql: &str,
        values: &[Value],
        then: impl FnOnce(&mut rusqlite::CachedStatement<'_>) -> rusqlite::Result<T>,
    ) -> Result<T, StoreError> {
        let act = || {
            let mut statement = self.connection.prepare_cached(sql)?;
            for (index, value) in values.iter().enumerate() {
                // `$2` may stand before `$1`: places are found by name.
                if let Some(place) = statement.parameter_index(&format!("${}", index + 1))? {
                    statement.raw_bind_parameter(place, value)?;
                }
            }
            then(&mut statement)
        };
        act().map_err(|error| told(self.place, &error))
    }
}

impl Statements for Running<'_> {
    fn run(&mut self, sql: &str, values: &[Value]) -> Result<usize, StoreError> {
        self.prepared(sql, values, |statement| statement.raw_execute())
    }

    fn rows(&mut self, sql: &str, values: &[Value]) -> Result<Vec<Row>, StoreError> {
        self.prepared(sql, values, |statement| {
            let columns = statement.column_count();
            let mut found = Vec::new();
            let mut rows = statement.raw_query();
            while let Some(row) = rows.next()? {
                let cells = (0..columns).map(|column| {
                    Ok(match row.get_ref(column)? {
                        ValueRef::Integer(number) => Value::Integer(number),
                        ValueRef::Text(text) => Value::Text(String::from_utf8_lossy(text).into_owned()),
                        ValueRef::Null | ValueRef::Real(_) | ValueRef::Blob(_) => Value::Null,
                    })
                });
                found.push(Row(cells.collect::<rusqlite::Result<_>>()?));
            }
            Ok(found)
        })
    }
}

impl rusqlite::ToSql for Value {
    fn to_sql(&self) -> rusqlite::Result<ToSqlOutput<'_>> {
        Ok(ToSqlOutput::Borrowed(match self {
            Value::Null => ValueRef::Null,
            Value::Integer(number) => ValueRef::Integer(*number),
            Value::Text(text) => ValueRef::Text(text.as_bytes()),
        }))
    }
}

/// What SQLite said, for whoever has to do something about it.
fn told(place: &str, error: &rusqlite::Error) -> StoreError {
    let place = place.to_string();
    let detail = error.to_string();
    match error.sqlite_error_code() {
        Some(ErrorCode::DiskFull) => StoreError::Full(place),
        Some(ErrorCode::ReadOnly) => StoreError::ReadOnly(place),
        Some(ErrorCode::DatabaseBusy | ErrorCode::DatabaseLocked) => StoreError::Busy(place),
        Some(ErrorCode::NotADatabase) => StoreError::NotAStore(place),
        Some(ErrorCode::DatabaseCorrupt) => StoreError::Damaged { place, detail: Both::same(detail) },
        Some(ErrorCode::ConstraintViolation) if detail.contains("UNIQUE") => StoreError::Overtaken,
        Some(ErrorCode::CannotOpen) => StoreError::Failed { place, detail: StoreFault::CannotOpen.both() },
        _ => StoreError::Failed { place, detail: Both::same(detail) },
    }
}
