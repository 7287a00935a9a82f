mod shipped;
