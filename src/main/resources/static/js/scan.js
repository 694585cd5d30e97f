// Reads a label's code with the camera and sends the form it stands in. Everything works without: the field takes typed text.
"use strict";

(() => {
  const AGAIN_AFTER_MS = 150;

  /** A function that finds a code's text in a video's picture, or nothing: the browser's own reader, else a library. */
  async function reader(address) {
    if ("BarcodeDetector" in window) {
      const formats = await window.BarcodeDetector.getSupportedFormats();
      if (formats.includes("qr_code")) {
        const detector = new window.BarcodeDetector({ formats: ["qr_code"] });
        return async (video) => (await detector.detect(video))[0]?.rawValue;
      }
    }
    await new Promise((loaded, failed) => {
      const script = document.createElement("script");
      script.src = address;
      script.onload = loaded;
      script.onerror = failed;
      document.head.append(script);
    });
    const canvas = document.createElement("canvas");
    const pen = canvas.getContext("2d", { willReadFrequently: true });
    return async (video) => {
      canvas.width = video.videoWidth;
      canvas.height = video.videoHeight;
      pen.drawImage(video, 0, 0);
      const picture = pen.getImageData(0, 0, canvas.width, canvas.height);
      return window.jsQR(picture.data, picture.width, picture.height)?.data;
    };
  }

  function equip(corner) {
    const form = corner.closest("form");
    const button = corner.querySelector("button");
    const [start, stop] = button.querySelectorAll("span");
    const video = corner.querySelector("video");
    const refused = corner.querySelector("p");
    let stream;

    function show(running) {
      video.hidden = !running;
      start.hidden = running;
      stop.hidden = !running;
      button.setAttribute("aria-expanded", String(running));
    }

    function end() {
      stream?.getTracks().forEach((track) => track.stop());
      stream = undefined;
      show(false);
    }

    async function begin() {
      refused.hidden = true;
      try {
        stream = await navigator.mediaDevices.getUserMedia({ video: { facingMode: "environment" } });
        video.srcObject = stream;
        show(true);
        await video.play();
        await look(await reader(corner.dataset.reader));
      } catch {
        end();
        refused.hidden = false;
      }
    }

    async function look(read) {
      while (stream) {
        const text = video.videoWidth > 0 ? await read(video) : undefined;
        if (text) {
          end();
          navigator.vibrate?.(80);
          form.querySelector("input[name=code]").value = text;
          form.requestSubmit();
          return;
        }
        await new Promise((next) => setTimeout(next, AGAIN_AFTER_MS));
      }
    }

    button.addEventListener("click", () => (stream ? end() : begin()));
    window.addEventListener("pagehide", end);
    corner.hidden = false;
  }

  if (navigator.mediaDevices?.getUserMedia) {
    document.querySelectorAll(".camera").forEach(equip);
  }
})();
