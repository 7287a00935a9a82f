mod progress;
