// Asking the program that serves this page: what loops the taps are, and to save them.
async function send(where) {
  for (const id of ["find", "save"]) $(id).disabled = true;
  $("told").textContent = where === "/find" ? "looking …" : "saving …";
  const tempo = $("tempo").value.trim();
  try {
    if (tempo && !(Number(tempo) > 0)) throw new Error(`"${tempo}" is no tempo; write quarters a minute, as 96`);
    const answer = await fetch(where, {
      method: "POST",
      headers: { "Content-Type": "application/json", "X-Tieover-Token": document.body.dataset.token },
      body: JSON.stringify({
        parts: parts.map((p) => ({ name: p.name, taps: p.taps })), tempo: Number(tempo) || 0, meter: $("meter").value.trim(),
        file: recording.file ? recording.file.name : "",
      }),
    }).catch(() => { throw new Error("tieover tap has ended, so nothing can be found or saved; your taps are still here, also as text"); });
    if (!answer.ok) throw new Error(await answer.text());
    const a = await answer.json();
    $("told").textContent = a.told.trim();
    $("result").hidden = !a.found;
    for (const id of ["found", "chart", "spec"]) {
      $(id).textContent = a[id];
      $(id).hidden = $(id).previousElementSibling.hidden = !a[id];
    }
    if (a.saved) unsaved = false;
  } catch (e) {
    $("told").textContent = e.message;
  } finally {
    for (const id of ["find", "save"]) $(id).disabled = false;
  }
}
