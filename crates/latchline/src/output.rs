//! Results on standard output.

use crate::refusal::{Result, Unwritten};
use std::cell::Cell;
use std::io::{self, ErrorKind, Write};
use std::rc::Rc;

/// Writes a result to standard output.
///
/// # Errors
/// If it cannot be written.
pub fn put(text: &str, output: &mut dyn Write) -> Result<()> {
    Ok(output.write_all(text.as_bytes()).and_then(|()| output.flush())?)
}

/// Standard output whose reader may have seen enough and go: what comes after is dropped, and the command ends as
/// it would have. Anything else that keeps a result from being written is an error ([`Unwritten`]).
///
/// An output that was closed before the start is none: the runtime has put the null device in its place by then, so that no file takes its
/// number, and nothing tells that from a result that is thrown away on purpose.
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
            // The writer above tries again by itself.
            Err(error) if error.kind() == ErrorKind::Interrupted => Err(error),
            Err(error) => Err(io::Error::new(error.kind(), Unwritten(error))),
            Ok(done) => Ok(done),
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
