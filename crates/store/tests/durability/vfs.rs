//! A layer between SQLite and the files of the system: everything goes through, and what is written, cut off, synced and removed is recorded in
//! order. Instead of syncing it only records that. It can also be short of room, or read-only.
#![allow(unsafe_code, reason = "SQLite asks for a table of C functions")]

use super::medium::Happened;
use rusqlite::ffi::{self, sqlite3_file, sqlite3_io_methods, sqlite3_vfs};
use std::ffi::{CStr, c_char, c_int, c_void};
use std::path::Path;
use std::sync::atomic::{AtomicBool, AtomicI64, Ordering};
use std::sync::{Mutex, MutexGuard, Once, PoisonError};

/// The name under which it is registered.
pub const NAME: &str = "recording";

static HAPPENED: Mutex<Vec<Happened>> = Mutex::new(Vec::new());
static IS_RECORDING: AtomicBool = AtomicBool::new(false);
/// Bytes that can still be written.
pub static ROOM: AtomicI64 = AtomicI64::new(i64::MAX);
/// Whether the medium can only be read.
pub static IS_READ_ONLY: AtomicBool = AtomicBool::new(false);

/// One of the files of SQLite.
#[repr(C)]
struct Recorded {
    base: sqlite3_file,
    /// The file of the system's own layer.
    real: *mut sqlite3_file,
    name: *mut String,
}

fn real_vfs() -> *mut sqlite3_vfs {
    static REAL: Mutex<usize> = Mutex::new(0);
    let mut real = REAL.lock().unwrap();
    if *real == 0 {
        // SAFETY: a null name asks for the default.
        *real = unsafe { ffi::sqlite3_vfs_find(std::ptr::null()) } as usize;
    }
    *real as *mut sqlite3_vfs
}

/// Makes the layer known to SQLite, and keeps it for one test at a time.
pub fn registered() -> MutexGuard<'static, ()> {
    static ONE: Mutex<()> = Mutex::new(());
    static ONCE: Once = Once::new();
    let one = ONE.lock().unwrap_or_else(PoisonError::into_inner);
    ONCE.call_once(|| {
        // SAFETY: the default layer is there for ever; its copy is given away for ever, with other functions to open and to remove.
        unsafe {
            let mut vfs = *real_vfs();
            let name: &'static CStr = c"recording";
            vfs.zName = name.as_ptr();
            vfs.pNext = std::ptr::null_mut();
            vfs.szOsFile = size_of::<Recorded>() as c_int;
            vfs.xOpen = Some(open);
            vfs.xDelete = Some(delete);
            assert_eq!(ffi::sqlite3_vfs_register(Box::leak(Box::new(vfs)), 0), ffi::SQLITE_OK);
        }
    });
    IS_RECORDING.store(false, Ordering::SeqCst);
    ROOM.store(i64::MAX, Ordering::SeqCst);
    IS_READ_ONLY.store(false, Ordering::SeqCst);
    one
}

/// Begins a new record.
pub fn record() {
    HAPPENED.lock().unwrap().clear();
    IS_RECORDING.store(true, Ordering::SeqCst);
}

/// Ends it.
pub fn recorded() -> Vec<Happened> {
    IS_RECORDING.store(false, Ordering::SeqCst);
    std::mem::take(&mut *HAPPENED.lock().unwrap())
}

/// Adds to the record.
pub fn note(happened: Happened) {
    if IS_RECORDING.load(Ordering::SeqCst) {
        HAPPENED.lock().unwrap().push(happened);
    }
}

/// # Safety
/// `name` is null or a C string.
unsafe fn name_of(name: *const c_char) -> String {
    if name.is_null() {
        return String::new();
    }
    // SAFETY: as promised.
    let path = unsafe { CStr::from_ptr(name) }.to_string_lossy().into_owned();
    Path::new(&path).file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default()
}

unsafe extern "C" fn open(
    _: *mut sqlite3_vfs,
    name: *const c_char,
    file: *mut sqlite3_file,
    flags: c_int,
    out: *mut c_int,
) -> c_int {
    let mut flags = flags;
    if IS_READ_ONLY.load(Ordering::SeqCst) && flags & ffi::SQLITE_OPEN_READWRITE != 0 {
        flags = (flags & !(ffi::SQLITE_OPEN_READWRITE | ffi::SQLITE_OPEN_CREATE)) | ffi::SQLITE_OPEN_READONLY;
    }
    // SAFETY: SQLite gives room for `szOsFile` bytes; the real layer gets as much as it asked for.
    unsafe {
        let file = file.cast::<Recorded>();
        (*file).base.pMethods = std::ptr::null();
        let real_vfs = real_vfs();
        let words = (*real_vfs).szOsFile as usize / 8 + 1;
        let real = Box::leak(vec![0_u64; words].into_boxed_slice()).as_mut_ptr().cast::<sqlite3_file>();
        let open = (*real_vfs).xOpen.unwrap();
        let code = open(real_vfs, name, real, flags, out);
        if code == ffi::SQLITE_OK {
            (*file).real = real;
            (*file).name = Box::leak(Box::new(name_of(name)));
            (*file).base.pMethods = &METHODS;
        }
        code
    }
}

unsafe extern "C" fn delete(_: *mut sqlite3_vfs, name: *const c_char, _: c_int) -> c_int {
    // SAFETY: what SQLite gave is given on.
    unsafe {
        note(Happened::Removed { file: name_of(name) });
        let real = real_vfs();
        (*real).xDelete.unwrap()(real, name, 0)
    }
}

/// The file of the real layer, and its methods.
macro_rules! real {
    ($file:expr, $method:ident $(, $value:expr)*) => {{
        // SAFETY: `open` filled it in, and SQLite calls nothing else on it.
        unsafe {
            let real = (*$file.cast::<Recorded>()).real;
            (*(*real).pMethods).$method.unwrap()(real $(, $value)*)
        }
    }};
}

/// The name of a file.
macro_rules! name {
    ($file:expr) => {{
        // SAFETY: as above.
        unsafe { (*(*$file.cast::<Recorded>()).name).clone() }
    }};
}

unsafe extern "C" fn close(file: *mut sqlite3_file) -> c_int {
    real!(file, xClose)
}

unsafe extern "C" fn read(file: *mut sqlite3_file, to: *mut c_void, bytes: c_int, at: i64) -> c_int {
    real!(file, xRead, to, bytes, at)
}

unsafe extern "C" fn write(file: *mut sqlite3_file, from: *const c_void, bytes: c_int, at: i64) -> c_int {
    if ROOM.fetch_sub(i64::from(bytes), Ordering::SeqCst) < i64::from(bytes) {
        ROOM.store(0, Ordering::SeqCst);
        return ffi::SQLITE_FULL;
    }
    if IS_RECORDING.load(Ordering::SeqCst) {
        // SAFETY: SQLite gives so many bytes.
        let written = unsafe { std::slice::from_raw_parts(from.cast::<u8>(), bytes as usize) };
        note(Happened::Written { file: name!(file), at: at as usize, bytes: written.to_vec() });
    }
    real!(file, xWrite, from, bytes, at)
}

unsafe extern "C" fn truncate(file: *mut sqlite3_file, bytes: i64) -> c_int {
    note(Happened::CutOff { file: name!(file), bytes: bytes as usize });
    real!(file, xTruncate, bytes)
}

unsafe extern "C" fn sync(file: *mut sqlite3_file, _: c_int) -> c_int {
    note(Happened::Synced { file: name!(file) });
    ffi::SQLITE_OK
}

unsafe extern "C" fn file_size(file: *mut sqlite3_file, size: *mut i64) -> c_int {
    real!(file, xFileSize, size)
}

unsafe extern "C" fn lock(file: *mut sqlite3_file, kind: c_int) -> c_int {
    real!(file, xLock, kind)
}

unsafe extern "C" fn unlock(file: *mut sqlite3_file, kind: c_int) -> c_int {
    real!(file, xUnlock, kind)
}

unsafe extern "C" fn check_reserved_lock(file: *mut sqlite3_file, out: *mut c_int) -> c_int {
    real!(file, xCheckReservedLock, out)
}

unsafe extern "C" fn file_control(file: *mut sqlite3_file, what: c_int, with: *mut c_void) -> c_int {
    real!(file, xFileControl, what, with)
}

unsafe extern "C" fn sector_size(file: *mut sqlite3_file) -> c_int {
    real!(file, xSectorSize)
}

unsafe extern "C" fn device_characteristics(file: *mut sqlite3_file) -> c_int {
    real!(file, xDeviceCharacteristics)
}

unsafe extern "C" fn shm_map(
    file: *mut sqlite3_file,
    page: c_int,
    bytes: c_int,
    extend: c_int,
    to: *mut *mut c_void,
) -> c_int {
    real!(file, xShmMap, page, bytes, extend, to)
}

unsafe extern "C" fn shm_lock(file: *mut sqlite3_file, at: c_int, count: c_int, flags: c_int) -> c_int {
    real!(file, xShmLock, at, count, flags)
}

unsafe extern "C" fn shm_barrier(file: *mut sqlite3_file) {
    real!(file, xShmBarrier);
}

unsafe extern "C" fn shm_unmap(file: *mut sqlite3_file, delete: c_int) -> c_int {
    real!(file, xShmUnmap, delete)
}

static METHODS: sqlite3_io_methods = sqlite3_io_methods {
    iVersion: 2,
    xClose: Some(close),
    xRead: Some(read),
    xWrite: Some(write),
    xTruncate: Some(truncate),
    xSync: Some(sync),
    xFileSize: Some(file_size),
    xLock: Some(lock),
    xUnlock: Some(unlock),
    xCheckReservedLock: Some(check_reserved_lock),
    xFileControl: Some(file_control),
    xSectorSize: Some(sector_size),
    xDeviceCharacteristics: Some(device_characteristics),
    xShmMap: Some(shm_map),
    xShmLock: Some(shm_lock),
    xShmBarrier: Some(shm_barrier),
    xShmUnmap: Some(shm_unmap),
    xFetch: None,
    xUnfetch: None,
};
