// Hands the person a file that was made here; this works without the daemon and on plain http.

/** Offers `text`, of a media type, to be saved under this name. */
export function saveAs(name, text, type) {
  const address = URL.createObjectURL(new Blob([text], { type }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 60000);
}
