//! Results on standard output.

use anyhow::{Context, Result};
use std::cell::Cell;
use std::io::{self, ErrorKind, Write};
use std::rc::Rc;

/// Writes a result to standard output.
///
/// # Errors
/// If it cannot be written.
pub fn put(text: &str, output: &mut dyn Write) -> Result<()> {
    output.write_all(text.as_bytes()).and_then(|()| output.flush()).context("cannot write the result")
}

/// Standard output whose reader may have seen enough and go: what comes after is dropped, and the command ends as
/// it would have. Anything else that keeps a result from being written is an error.
#[derive(Debug)]
pub struct Answer<W> {
    inner: W,
    reader_is_gone: Rc<Cell<bool>>,
}

impl<W: Write> Answer<W> {
    /// Writes to `inner`; tells in `reader_is_gone` when its reader went.
    pub fn new(inner: W, reader_is_gone: Rc<Cell<bool>>) -> Self {
        Self { inner, reader_is_gone }
    }

    fn unless_gone<T>(&mut self, dropped: T, act: impl FnOnce(&mut W) -> io::Result<T>) -> io::Result<T> {
        if self.reader_is_gone.get() {
            return Ok(dropped);
        }
        match act(&mut self.inner) {
            Err(error) if error.kind() == ErrorKind::BrokenPipe => {
                self.reader_is_gone.set(true);
                Ok(dropped)
            }
            result => result,
        }
    }
}

impl<W: Write> Write for Answer<W> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.unless_gone(bytes.len(), |inner| inner.write(bytes))
    }

    fn flush(&mut self) -> io::Result<()> {
        self.unless_gone((), W::flush)
    }
}
