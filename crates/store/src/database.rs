//! What a database must do for a store. SQL stands in this crate once: columns of `text` and `bigint`, places of values as `$1`.

use crate::StoreError;

/// A value in a row, or for a place in a statement.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Value {
    /// No value.
    Null,
    /// A whole number.
    Integer(i64),
    /// A text.
    Text(String),
}

impl From<i64> for Value {
    fn from(number: i64) -> Self {
        Value::Integer(number)
    }
}

impl From<&str> for Value {
    fn from(text: &str) -> Self {
        Value::Text(text.to_string())
    }
}

impl From<String> for Value {
    fn from(text: String) -> Self {
        Value::Text(text)
    }
}

impl<T: Into<Value>> From<Option<T>> for Value {
    fn from(value: Option<T>) -> Self {
        value.map_or(Value::Null, Into::into)
    }
}

/// A row of an answer.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Row(pub Vec<Value>);

impl Row {
    /// The text in a column; empty if there is none.
    pub fn text(&self, column: usize) -> String {
        match self.0.get(column) {
            Some(Value::Text(text)) => text.clone(),
            _ => String::new(),
        }
    }

    /// The number in a column; 0 if there is none.
    pub fn integer(&self, column: usize) -> i64 {
        self.optional(column).unwrap_or(0)
    }

    /// The number in a column, if there is one.
    pub fn optional(&self, column: usize) -> Option<i64> {
        match self.0.get(column) {
            Some(Value::Integer(number)) => Some(*number),
            _ => None,
        }
    }
}

/// What is run within one transaction.
pub trait Statements {
    /// Runs a statement; how many rows it changed.
    ///
    /// # Errors
    /// If the database refuses.
    fn run(&mut self, sql: &str, values: &[Value]) -> Result<usize, StoreError>;

    /// The rows that a statement gives.
    ///
    /// # Errors
    /// If the database refuses.
    fn rows(&mut self, sql: &str, values: &[Value]) -> Result<Vec<Row>, StoreError>;

    /// The first row, if there is one.
    ///
    /// # Errors
    /// If the database refuses.
    fn row(&mut self, sql: &str, values: &[Value]) -> Result<Option<Row>, StoreError> {
        Ok(self.rows(sql, values)?.into_iter().next())
    }
}

/// What is done in one transaction. It may be done again if somebody else was quicker.
pub type Work<'w> = dyn FnMut(&mut dyn Statements) -> Result<(), StoreError> + 'w;

/// A database that keeps a store.
pub trait Database: Send + Sync + std::fmt::Debug {
    /// Where it is, as it is told.
    fn place(&self) -> &str;

    /// One transaction that only reads, and sees one state of everything.
    ///
    /// # Errors
    /// That of the work, or of the database.
    fn read(&self, work: &mut Work<'_>) -> Result<(), StoreError>;

    /// One transaction that writes. When this returns without error, what was written is on the medium, whatever happens to the
    /// process, the system or the power; on an error nothing was written.
    ///
    /// # Errors
    /// That of the work, or of the database.
    fn write(&self, work: &mut Work<'_>) -> Result<(), StoreError>;
}
